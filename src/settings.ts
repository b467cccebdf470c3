import { InputError } from './errors';

/**
 * Every limit and window, once: its unit, its default and where it is from. "cp" is common practice, no source.
 * The default is the *working* limit; `firstYear` and `recital` replace it where a teacher chose those limits.
 */
interface Setting {
  readonly unit: 'ms' | 'dB' | '%' | 'ratio' | 'gaps' | 'velocity' | 'count' | 'cost' | 'sd' | 'mads';
  readonly working: number;
  readonly firstYear?: number;
  readonly recital?: number;
  readonly source: string;
}

const CP = 'common practice, no source';
const MEASURED = 'measured with `npm run bench -- free-time`';
const DATA_SET = 'a published data set of drummers’ hits: mean gaps, rounded';
const DESIGN = 'grading design, tried on model players and recordings';

const table = {
  // Conditioning of raw hits
  'zone.windowMs': { unit: 'ms', working: 10, source: CP },
  'forerunner.windowMs': { unit: 'ms', working: 8, source: CP },
  'echo.windowMs': { unit: 'ms', working: 100, source: 'real pads echo 41–96 ms later; ' + DESIGN },
  'echo.ratio': {
    unit: 'ratio',
    working: 0.35,
    source: 'real pads echo at 2–32 % of the velocity; ' + DESIGN,
  },
  'crosstalk.windowMs': { unit: 'ms', working: 6, source: CP },
  'crosstalk.ratio': { unit: 'ratio', working: 0.35, source: CP },
  'rig.namedFrom': { unit: 'ratio', working: 0.02, source: CP },
  'clipping.from': { unit: 'ratio', working: 0.03, source: CP },
  'tooSoft.velocity': { unit: 'velocity', working: 6, source: CP },
  'tooSoft.windowDb': { unit: 'dB', working: 4, source: CP },
  'hand.restMs': { unit: 'ms', working: 700, source: CP },

  // Alignment
  'offset.reachGaps': { unit: 'gaps', working: 0.75, source: DESIGN },
  'pairing.spreadFactor': { unit: 'sd', working: 4, source: DESIGN },
  'pairing.limitLeast': { unit: 'gaps', working: 0.4, source: DESIGN },
  'pairing.limitMost': { unit: 'gaps', working: 0.999, source: DESIGN },
  'pairing.limitLive': { unit: 'gaps', working: 0.75, source: DESIGN },
  'echo.fillGaps': { unit: 'gaps', working: 0.5, source: DESIGN },
  'slip.mostLag': { unit: 'count', working: 3, source: DESIGN },
  'slip.change': { unit: 'cost', working: 5, source: DESIGN },
  'slip.perPlace': { unit: 'cost', working: 0.5, source: DESIGN },
  'slip.leastGain': { unit: 'cost', working: 9, source: DESIGN },
  'slip.knownHand': { unit: 'cost', working: 2.5, source: DESIGN },
  'slip.mostEvidence': { unit: 'cost', working: 3, source: DESIGN },
  'slip.leastSpreadDb': { unit: 'dB', working: 1.5, source: DESIGN },
  'slip.leastSeparation': { unit: 'sd', working: 2.5, source: DESIGN },
  'bar.enter': { unit: 'cost', working: 5, source: DESIGN },
  'bar.enterMirrored': { unit: 'cost', working: 6, source: DESIGN },
  'bar.leastAgreement': { unit: 'ratio', working: 0.5, source: DESIGN },
  'bar.lagCovers': { unit: 'ratio', working: 0.75, source: DESIGN },
  'bar.lagCosts': { unit: 'cost', working: 1, source: DESIGN },

  // Course of the take
  'course.oneStrokes': { unit: 'count', working: 24, source: DESIGN },
  'course.oneShare': { unit: 'ratio', working: 0.8, source: DESIGN },
  'course.fewStrokes': { unit: 'count', working: 48, source: DESIGN },
  'course.fewShare': { unit: 'ratio', working: 0.95, source: DESIGN },
  'course.doubleMs': { unit: 'ms', working: 60, source: DESIGN },
  'course.doubleGaps': { unit: 'gaps', working: 0.5, source: DESIGN },
  'course.doubleDb': { unit: 'dB', working: 3, source: DESIGN },
  'course.doublesFrom': { unit: 'ratio', working: 0.01, source: DESIGN },
  'course.doublesMost': { unit: 'ratio', working: 0.35, source: DESIGN },
  'course.falseMost': { unit: 'ratio', working: 0.25, source: DESIGN },
  'course.rateReach': { unit: 'ratio', working: 0.06, source: DESIGN },
  // Mean cosine of the strokes’ distances in steps of the other rate from which it is told; of strokes left out it is negative
  'course.rateSteps': { unit: 'ratio', working: 0, source: DESIGN },
  'course.pauseBars': { unit: 'ratio', working: 0.5, source: DESIGN },
  'course.pauseMs': { unit: 'ms', working: 1000, source: DESIGN },
  'course.lineResultant': { unit: 'ratio', working: 0.5, source: DESIGN },
  'course.lineMs': { unit: 'ms', working: 25, source: DESIGN },
  'course.lineGaps': { unit: 'gaps', working: 0.15, source: DESIGN },
  'course.lineErrors': { unit: 'sd', working: 4, source: DESIGN },
  'course.stepSquares': { unit: 'ratio', working: 0.75, source: DESIGN },
  'course.shiftGain': { unit: 'cost', working: 9, source: DESIGN },
  'course.shiftPlace': { unit: 'cost', working: 0.5, source: DESIGN },
  'course.shiftFar': { unit: 'cost', working: 0.02, source: DESIGN },
  'course.outside': { unit: 'cost', working: 1.5, source: DESIGN },
  'course.mirror': { unit: 'cost', working: 3, source: DESIGN },
  'course.latencyMs': { unit: 'ms', working: 400, source: DESIGN },
  'course.fromStart': { unit: 'cost', working: 2, source: DESIGN },
  'course.fromBar': { unit: 'cost', working: 4, source: DESIGN },
  'course.fromElsewhere': { unit: 'cost', working: 9, source: DESIGN },
  'fit.fewestStrokes': { unit: 'count', working: 32, source: DESIGN },
  'fit.leastResultant': { unit: 'ratio', working: 0.25, source: DESIGN },
  'fit.resultantFactor': { unit: 'ratio', working: 1.73, source: 'Rayleigh test, p about 0.05: 1.73/√n' },
  'fit.leastBlocks': { unit: 'ratio', working: 0.4, source: DESIGN },
  'fit.tempoReach': { unit: 'ratio', working: 0.08, source: DESIGN },
  'fit.tempoResultant': { unit: 'ratio', working: 0.5, source: DESIGN },
  'fit.swungGaps': { unit: 'gaps', working: 0.25, source: DESIGN },
  'fit.swungExplained': { unit: 'ratio', working: 0.5, source: DESIGN },
  'fit.swungStrokes': { unit: 'count', working: 8, source: DESIGN },
  'fit.wellPaired': { unit: 'ratio', working: 0.9, source: DESIGN },
  'grace.leastMs': { unit: 'ms', working: 8, source: DESIGN },
  'grace.mostMs': { unit: 'ms', working: 110, source: DESIGN },
  'grace.mostGaps': { unit: 'gaps', working: 0.6, source: CP },
  'grace.mostLouderDb': { unit: 'dB', working: 6, source: CP },
  // Of the graces due where a take is paired as it was due: with fewer, something happened to the take first
  'grace.fewestFound': { unit: 'ratio', working: 0.5, source: CP },
  // Of the graces due on a pad that merges close strokes: with fewer, those that came say nothing of the others
  'grace.fewestOfMerged': { unit: 'ratio', working: 0.5, source: CP },
  'unison.mostMs': { unit: 'ms', working: 50, source: CP },
  'unison.mostGaps': { unit: 'gaps', working: 0.4, source: CP },
  'feet.limitGaps': { unit: 'gaps', working: 0.5, source: CP },
  'fit.paired': { unit: 'ratio', working: 0.6, source: DESIGN },

  // Time without a click
  'free.slotsOfLine': { unit: 'count', working: 16, source: DESIGN },
  'free.slotsAheadMoving': { unit: 'count', working: 8, source: MEASURED },
  'free.slotsAroundMoving': { unit: 'count', working: 5, source: MEASURED },
  'free.mostMads': { unit: 'mads', working: 3, source: DESIGN },
  'free.fewestForMad': { unit: 'count', working: 6, source: CP },
  'free.reachGaps': { unit: 'gaps', working: 0.5, source: DESIGN },
  'free.doubtfulGaps': { unit: 'gaps', working: 0.4, source: MEASURED },
  'free.toldSlots': { unit: 'count', working: 8, source: MEASURED },
  'free.unusualBeginning': { unit: 'cost', working: 3, source: MEASURED },

  // Fewest strokes for a verdict
  'few.group': { unit: 'count', working: 4, source: DESIGN },
  'few.spread': { unit: 'count', working: 8, source: DESIGN },
  'few.doubles': { unit: 'count', working: 8, source: DESIGN },
  'few.changes': { unit: 'count', working: 6, source: DESIGN },
  // Strokes of each group from which a figure can be sure
  'few.sure': { unit: 'count', working: 8, source: DESIGN },
  // Strokes that carry a term, gaps of doubles or graces, and strokes of each hand, from which one bar tells their mean
  'few.ofTermInBar': { unit: 'count', working: 2, source: DESIGN },
  'few.gapsInBar': { unit: 'count', working: 3, source: DESIGN },
  'few.ofHandInBar': { unit: 'count', working: 4, source: DESIGN },

  // A variation whose soft strokes all lie this far above or below the others’ is loud or soft all over: no leak
  'allOver.least': { unit: 'dB', working: 1, source: DESIGN },

  // Measures: where each holds, is not yet there, is ideal
  'complete.holds': { unit: 'ratio', working: 0.99, firstYear: 0.95, source: CP },
  'complete.notYet': { unit: 'ratio', working: 0.95, firstYear: 0.85, source: CP },
  'complete.ideal': { unit: 'ratio', working: 1, source: 'by definition' },
  'scatter.holdsPercent': { unit: '%', working: 8, firstYear: 12, recital: 5, source: CP },
  'scatter.holdsLeastMs': { unit: 'ms', working: 8, firstYear: 12, recital: 6, source: CP },
  'scatter.holdsMostMs': { unit: 'ms', working: 16, firstYear: 24, recital: 10, source: CP },
  'scatter.notYetFactor': { unit: 'ratio', working: 2, source: CP },
  'leakBefore.holds': { unit: 'dB', working: 2, firstYear: 4, source: CP },
  'leakBefore.notYet': { unit: 'dB', working: 5, firstYear: 8, source: CP },
  'leakBefore.ideal': { unit: 'dB', working: 0, source: 'by definition' },
  'leakAfter.holds': { unit: 'dB', working: 2, firstYear: 4, source: CP },
  'leakAfter.notYet': { unit: 'dB', working: 5, firstYear: 8, source: CP },
  'leakAfter.ideal': { unit: 'dB', working: 0, source: 'by definition' },
  'spill.holds': { unit: 'dB', working: 2, firstYear: 4, source: CP },
  'spill.notYet': { unit: 'dB', working: 5, firstYear: 8, source: CP },
  'spill.ideal': { unit: 'dB', working: 0, source: 'by definition' },
  'softRange.holds': { unit: 'dB', working: 3, firstYear: 5, source: CP },
  'softRange.notYet': { unit: 'dB', working: 7, firstYear: 10, source: CP },
  'softRange.ideal': { unit: 'dB', working: 0, source: 'by definition' },
  'softness.holds': { unit: 'dB', working: -16, firstYear: -12, recital: -20, source: CP },
  'softness.notYet': { unit: 'dB', working: -10, firstYear: -7, recital: -14, source: CP },
  'softness.ideal': { unit: 'dB', working: -24, source: CP },
  'ghostContrast.holds': { unit: 'dB', working: 5, source: CP },
  'ghostContrast.notYet': { unit: 'dB', working: 2, source: CP },
  'ghostContrast.ideal': { unit: 'dB', working: 8, source: CP },
  'contrast.holds': { unit: 'dB', working: 12, firstYear: 8, recital: 14, source: CP },
  'contrast.notYet': { unit: 'dB', working: 6, firstYear: 4, recital: 9, source: CP },
  'contrast.ideal': { unit: 'dB', working: 18, source: CP },
  'clarity.holds': { unit: 'ratio', working: 0.98, source: CP },
  'clarity.notYet': { unit: 'ratio', working: 0.9, source: CP },
  'clarity.ideal': { unit: 'ratio', working: 1, source: 'by definition' },
  'fade.holds': { unit: 'dB', working: 2, firstYear: 3, recital: 1.5, source: CP },
  'fade.notYet': { unit: 'dB', working: 5, firstYear: 7, recital: 4, source: CP },
  'doubleGap.holdsPercent': { unit: '%', working: 5, source: CP },
  'doubleGap.holdsMs': { unit: 'ms', working: 8, source: CP },
  'doubleGap.notYetPercent': { unit: '%', working: 12, source: CP },
  'doubleGap.notYetMs': { unit: 'ms', working: 16, source: CP },
  'balanceSoft.holds': { unit: 'dB', working: 2.5, firstYear: 4, recital: 1.5, source: CP },
  'balanceSoft.notYet': { unit: 'dB', working: 5, firstYear: 7, recital: 4, source: CP },
  'balanceAccent.holds': { unit: 'dB', working: 2, firstYear: 4, recital: 1.5, source: CP },
  'balanceAccent.notYet': { unit: 'dB', working: 4, firstYear: 7, recital: 4, source: CP },
  'lag.holds': { unit: 'ms', working: 10, firstYear: 15, recital: 6, source: CP },
  'lag.notYet': { unit: 'ms', working: 20, firstYear: 30, recital: 15, source: CP },
  'arrival.holds': { unit: 'ms', working: 10, firstYear: 15, recital: 6, source: CP },
  'arrival.holdsPercent': { unit: '%', working: 5, source: CP },
  'arrival.notYetFactor': { unit: 'ratio', working: 2, source: DESIGN },
  'seamMs.holds': { unit: 'ms', working: 10, recital: 6, source: CP },
  'seamMs.notYet': { unit: 'ms', working: 20, source: CP },
  'seamDb.holds': { unit: 'dB', working: 2, recital: 1.5, source: CP },
  'seamDb.notYet': { unit: 'dB', working: 4, source: CP },
  'graceEvenness.holds': { unit: 'ms', working: 9, source: CP },
  'graceEvenness.notYet': { unit: 'ms', working: 18, source: CP },
  'graceHands.holds': { unit: 'ms', working: 10, source: CP },
  'graceHands.notYet': { unit: 'ms', working: 20, source: CP },
  'flamGap.ideal': { unit: 'ms', working: 40, source: DATA_SET },
  'flamGap.holdsLeast': { unit: 'ms', working: 15, firstYear: 10, source: CP },
  'flamGap.holdsMost': { unit: 'ms', working: 55, firstYear: 70, source: CP },
  'flamGap.notYetLeast': { unit: 'ms', working: 8, source: CP },
  'flamGap.notYetMost': { unit: 'ms', working: 80, source: CP },
  'dragGap.ideal': { unit: 'ms', working: 58, source: DATA_SET },
  'dragGap.holdsLeast': { unit: 'ms', working: 25, firstYear: 20, source: CP },
  'dragGap.holdsMost': { unit: 'ms', working: 80, firstYear: 95, source: CP },
  'dragGap.notYetLeast': { unit: 'ms', working: 15, source: CP },
  'dragGap.notYetMost': { unit: 'ms', working: 110, source: CP },
  'graceSoftness.ideal': { unit: 'dB', working: -20, source: CP },
  'graceSoftness.holds': { unit: 'dB', working: -12, source: CP },
  'graceSoftness.notYet': { unit: 'dB', working: -6, source: CP },
  'graceSoftness.softHolds': { unit: 'dB', working: -4, source: CP },
  'graceSoftness.softNotYet': { unit: 'dB', working: 1, source: CP },
  'softSpread.holds': { unit: 'dB', working: 3, recital: 2, source: CP },
  'softSpread.notYet': { unit: 'dB', working: 6, source: CP },
  'accentSpread.holds': { unit: 'dB', working: 2.5, recital: 2, source: CP },
  'accentSpread.notYet': { unit: 'dB', working: 5, source: CP },

  // Verdict and tempo
  // In free time the tempo’s change from the first quarter to the last, from which it is told
  'drift.freePercent': { unit: '%', working: 2, source: CP },
  // Of the step from *holds* to *not yet*: a variation this near the weakest is as bad
  'scope.leastStep': { unit: 'ratio', working: 1 / 3, source: DESIGN },
  // Bars of a variation from which it can hold
  'verdict.fewestBars': { unit: 'count', working: 3, source: DESIGN },
  'weakest.tie': { unit: 'ratio', working: 0.2, source: DESIGN },
  'clean.scatterFactor': { unit: 'ratio', working: 1.25, source: DESIGN },
  // Margins that a clean bar reaches at least: half-way to *not yet*; of what compares hands, *not yet* itself
  'clean.leastMargin': { unit: 'ratio', working: -0.5, source: DESIGN },
  'clean.leastMarginHands': { unit: 'ratio', working: -1, source: DESIGN },

  // Without learned heights the live picture draws these lines
  'heights.low': { unit: 'dB', working: -24, source: CP },
  'heights.half': { unit: 'dB', working: -14, source: CP },
  'heights.full': { unit: 'dB', working: -4, source: CP },
} as const satisfies Readonly<Record<string, Setting>>;

export type SettingKey = keyof typeof table;

/** The table, for pages and documents that list it. */
export const settingTable: Readonly<Record<SettingKey, Setting>> = table;

/** How strict a teacher is with a student. */
export type Limits = 'first year' | 'working' | 'recital';
export const limitsNames: readonly Limits[] = ['first year', 'working', 'recital'];

/** Every limit and window in force. */
export type Settings = Readonly<Record<SettingKey, number>>;

/**
 * Settings in force: the defaults under `limits`, then `changes` over them.
 * @param changes only what differs from the defaults, as a take stores it
 * @throws InputError for a key that is no setting, or a value that is none or far from what is meant
 * @example settingsOf('working')['contrast.holds'] // => 12
 * @example settingsOf('first year')['contrast.holds'] // => 8
 */
export function settingsOf(limits: Limits, changes: Readonly<Record<string, unknown>> = {}): Settings {
  const settings = Object.fromEntries(
    Object.entries(settingTable).map(([key, setting]) => [key, underLimits(setting, limits)]),
  ) as Record<SettingKey, number>;
  for (const [key, value] of Object.entries(changes)) {
    if (!isSettingKey(key)) throw new InputError(`settings.${key}`, 'is not a setting');
    if (typeof value !== 'number' || !Number.isFinite(value)) {
      throw new InputError(`settings.${key}`, 'must be a finite number', value);
    }
    refuseFar(key, value);
    settings[key] = value;
  }
  return settings;
}

/** How many times a setting's default a take may say instead: further off a limit or window means nothing. */
const FARTHEST = 10;

function refuseFar(key: SettingKey, value: number): void {
  const { unit, working }: Setting = settingTable[key];
  const most = FARTHEST * Math.max(1, Math.abs(working));
  const least = unit === 'dB' || working < 0 ? -most : unit === 'count' ? 1 : 0;
  if (value >= least && value <= most) return;
  throw new InputError(`settings.${key}`, `must be ${least} to ${most}`.replaceAll('-', '−'), value);
}

function underLimits(setting: Setting, limits: Limits): number {
  if (limits === 'first year') return setting.firstYear ?? setting.working;
  if (limits === 'recital') return setting.recital ?? setting.working;
  return setting.working;
}

function isSettingKey(key: string): key is SettingKey {
  return Object.hasOwn(settingTable, key);
}
