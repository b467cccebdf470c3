import type { Settings } from '../settings';
import type { JudgedKey } from './types';

/** Where a measure is ideal, where it holds, and where it is not yet there, in the measure's unit. */
export interface Limit {
  readonly ideal: number;
  readonly holds: number;
  readonly notYet: number;
  /** Two-sided: by absolute value, either direction is as bad. */
  readonly twoSided: boolean;
}

/** The seam has a limit in time and one in level. */
export type LimitKey = Exclude<JudgedKey, 'seam'> | 'seamMs' | 'seamDb';

/**
 * The limit in force. `scatter` and `doubleGap` depend on the gap between slots.
 * @param gapMs mean gap of the slots judged, ms
 * Scatter may be 8 % of the gap, from 8 to 16 ms; a double's gap is off by the larger of 5 % and 8 ms.
 * @example limitOf('scatter', settingsOf('working'), 150).holds // => 12
 * @example limitOf('doubleGap', settingsOf('working'), 100).holds // => 8
 */
export function limitOf(key: LimitKey, settings: Settings, gapMs: number): Limit {
  switch (key) {
    case 'scatter':
      return scatterLimit(settings, gapMs);
    case 'doubleGap':
      return {
        ideal: 0,
        holds: Math.max(settings['doubleGap.holdsPercent'], (100 * settings['doubleGap.holdsMs']) / gapMs),
        notYet: Math.max(settings['doubleGap.notYetPercent'], (100 * settings['doubleGap.notYetMs']) / gapMs),
        twoSided: true,
      };
    case 'complete':
    case 'leakBefore':
    case 'leakAfter':
    case 'spill':
    case 'softRange':
    case 'softness':
    case 'ghostContrast':
    case 'contrast':
    case 'clarity':
    case 'graceSoftness':
      return {
        ideal: settings[`${key}.ideal`],
        holds: settings[`${key}.holds`],
        notYet: settings[`${key}.notYet`],
        twoSided: false,
      };
    case 'flamGap':
      // The side the value is on says which; `flamGapLimit` asks with it.
      return flamGapLimit(settings, Infinity);
    case 'flamEvenness':
    case 'softSpread':
    case 'accentSpread':
      return {
        ideal: 0,
        holds: settings[`${key}.holds`],
        notYet: settings[`${key}.notYet`],
        twoSided: false,
      };
    case 'fade':
    case 'balanceSoft':
    case 'balanceAccent':
    case 'lag':
    case 'seamMs':
    case 'seamDb':
      return { ideal: 0, holds: settings[`${key}.holds`], notYet: settings[`${key}.notYet`], twoSided: true };
  }
}

/**
 * The limit of `flamGap` on the side of the ideal (30 ms) that a value is on: a grace may be too close or too far.
 * @example flamGapLimit(settingsOf('working'), 20).holds // => 15
 */
export function flamGapLimit(settings: Settings, valueMs: number): Limit {
  const side = valueMs < settings['flamGap.ideal'] ? 'Least' : 'Most';
  return {
    ideal: settings['flamGap.ideal'],
    holds: settings[`flamGap.holds${side}`],
    notYet: settings[`flamGap.notYet${side}`],
    twoSided: false,
  };
}

function scatterLimit(settings: Settings, gapMs: number): Limit {
  const share = (settings['scatter.holdsPercent'] / 100) * gapMs;
  const holds = Math.min(settings['scatter.holdsMostMs'], Math.max(settings['scatter.holdsLeastMs'], share));
  return { ideal: 0, holds, notYet: holds * settings['scatter.notYetFactor'], twoSided: false };
}
