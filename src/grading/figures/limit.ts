import type { SettingKey, Settings } from '../../settings';
import type { Ms } from '../../units';

/** Where a measure is ideal, where it holds, and where it is not yet there, in the measure's unit. */
export interface Limit {
  readonly ideal: number;
  readonly holds: number;
  readonly notYet: number;
  /** Two-sided: by absolute value, either direction is as bad. */
  readonly twoSided: boolean;
}

/** Names in front of an ending among the settings: `contrast` of `contrast.holds`. */
type Stem<Ending extends string> = {
  [Key in SettingKey]: Key extends `${infer Name}.${Ending}` ? Name : never;
}[SettingKey];
type Limited = Stem<'holds'> & Stem<'notYet'>;

/**
 * A limit with an ideal of its own, on one side: less is better where *not yet* lies above *holds*, else more is.
 * @example oneSided(settingsOf('working'), 'contrast') // => { ideal: 18, holds: 12, notYet: 6, twoSided: false }
 */
export function oneSided(settings: Settings, name: Limited & Stem<'ideal'>): Limit {
  return {
    ideal: settings[`${name}.ideal`],
    holds: settings[`${name}.holds`],
    notYet: settings[`${name}.notYet`],
    twoSided: false,
  };
}

/**
 * The less the better, down to nought.
 * @example downToNought(settingsOf('working'), 'softSpread') // => { ideal: 0, holds: 3, notYet: 6, twoSided: false }
 */
export function downToNought(settings: Settings, name: Limited): Limit {
  return { ideal: 0, holds: settings[`${name}.holds`], notYet: settings[`${name}.notYet`], twoSided: false };
}

/**
 * Ideal at nought, and either direction is as bad.
 * @example aboutNought(settingsOf('working'), 'lag') // => { ideal: 0, holds: 10, notYet: 20, twoSided: true }
 */
export function aboutNought(settings: Settings, name: Limited): Limit {
  return { ...downToNought(settings, name), twoSided: true };
}

/**
 * What a share of a gap may be off, in % of it: 5 % or 8 ms, whichever is more; not yet from 12 % or 16 ms.
 * @example shareOfGap(settingsOf('working'), 100) // => { ideal: 0, holds: 8, notYet: 16, twoSided: true }
 */
export function shareOfGap(settings: Settings, gapMs: Ms): Limit {
  return {
    ideal: 0,
    holds: Math.max(settings['doubleGap.holdsPercent'], (100 * settings['doubleGap.holdsMs']) / gapMs),
    notYet: Math.max(settings['doubleGap.notYetPercent'], (100 * settings['doubleGap.notYetMs']) / gapMs),
    twoSided: true,
  };
}
