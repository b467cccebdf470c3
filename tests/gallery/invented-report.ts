import { gridOf } from '../../src/exercises/grid';
import { phraseNamed } from '../../src/exercises/phrase';
import type {
  Band,
  Figure,
  JudgedKey,
  Measures,
  Report,
  SlotReport,
  TypeFigure,
} from '../../src/grading/types';
import type { Take } from '../../src/sessions/types';
import { settingsOf } from '../../src/settings';
import type { Hand } from '../../src/stroke';
import { random } from './invented';

const phrase = phraseNamed('Single paradiddle, accent walk');

export const inventedTake: Take = {
  format: 'evenhand-take',
  version: 1,
  id: 'invented',
  player: 'Sample player A',
  recordedAt: '2026-03-02T17:05:11.000Z',
  source: 'model',
  phrase,
  tempo: { bpm: 84 },
  click: 'on',
  limits: 'working',
  settings: {},
  rig: { levelLaw: 'gm2', inputDelayMs: 0, outputDelayMs: 0, surfaces: [] },
  downbeatMs: 4000,
  hits: [],
  notes: 'Fault: the left up stroke leaks.',
};

function figure(value: number, supported: number, hand?: Hand): Figure {
  const band: Band = supported >= 0 ? 'holds' : supported < -1 ? 'not yet' : 'close';
  const interval = [value - 0.8, value + 0.8] as const;
  const base: Figure = { value, interval, n: [32], margin: supported - 0.05, supported, band, sure: true };
  return hand === undefined ? base : { ...base, hand };
}

const few: Figure = { value: null, interval: null, n: [3], band: 'too few strokes' };

const rows: readonly (readonly [string, number, JudgedKey, Measures])[] = [
  ['accent on 1', 0.42, 'leakBefore', measures(15.9, -20.3, 0.6, 1.1, 0.42)],
  ['accent on 2', 0.3, 'leakBefore', measures(16.2, -20.6, 0.4, 1.4, 0.3)],
  ['accent on 3', -0.25, 'leakBefore', measures(15.1, -19.2, -0.9, 2.9, -0.25)],
  ['accent on 4', -1.03, 'leakBefore', measures(15.8, -18.1, -2.3, 5.1, -1.03)],
];

function measures(
  contrast: number,
  soft: number,
  balance: number,
  leak: number,
  leakMargin: number,
): Measures {
  return {
    complete: figure(1, 1),
    scatter: figure(7.2, 0.5),
    leakBefore: figure(leak, leakMargin, 'L'),
    leakAfter: figure(0.9, 0.5, 'R'),
    spill: figure(0.4, 0.8, 'R'),
    softness: figure(soft, 0.5),
    contrast: figure(contrast, 0.5),
    clarity: figure(0.998, 0.9),
    fade: leak > 5 ? few : figure(0.8, 0.6, 'R'),
    balanceSoft: figure(balance, 0.4),
    balanceAccent: figure(0.3, 0.9),
    lag: figure(-4.1, 0.4),
    seam: { ms: figure(4, 0.5), dB: figure(0.4, 0.6) },
    softSpread: figure(1.9, 0.3),
    accentSpread: figure(1.2, 0.5),
    asynchrony: { value: -6.2, interval: [-7.4, -5], n: [256] },
  };
}

const typeFigure: TypeFigure = { n: 30, level: -20, spread: 1.5 };
const types = { full: typeFigure, down: typeFigure, tap: typeFigure, up: typeFigure };

/** The report of an invented take: the numbers of a drawing, not of a grading. */
export function inventedReport(): Report {
  const next = random(3);
  const bell = () => next() + next() + next() + next() - 2;
  const grid = gridOf(phrase, { bpm: 84 }, 0);
  const slots = grid.slots.map((slot): SlotReport => {
    const leak = slot.type === 'up' && slot.hand === 'L' && slot.variation === 'accent on 4' ? 5 : 0;
    const level = (slot.kind === 'accent' ? -4.5 : -20.4) + leak + bell() * 2.4;
    const { bar, hand, kind } = slot;
    const deviationMs = bell() * 10 - 6;
    return { bar, slot: slot.slot, hand, kind, level, deviationMs, status: 'matched', judgedLevel: level };
  });
  const sentence =
    'Accent on 4 is the weak bar: the left hand’s tap before its accent is 5.1 dB louder than its other taps.';
  const counts = { slots: 512, matched: 509, missed: 3, slipped: 0, tooSoft: 0, notMeasured: 0, extra: 1 };
  return {
    format: 'evenhand-report',
    version: 2,
    takeId: 'invented',
    hands: 'assumed',
    limits: 'working',
    counts: {
      ...counts,
      otherBar: 0,
      notPlayed: 0,
      doubles: 0,
      wrongHand: 0,
      forerunners: 0,
      echoes: 0,
      crosstalk: 0,
      unmapped: 0,
    },
    offsetMs: -6,
    fits: true,
    misfit: null,
    cycles: { due: 8, played: 8 },
    slips: [],
    course: [],
    slipsNotToldBecause: null,
    clipping: [],
    settings: settingsOf('working'),
    saying: [],
    sentence,
    measures: measures(15.7, -20, -0.4, 2.6, -0.2),
    softModel: { R: null, L: null },
    bars: grid.bars.map(({ index, variation }) => {
      return {
        index,
        variation,
        clean: index % 5 !== 3,
        complete: true,
        broke: index % 5 === 3 ? ['contrast'] : [],
      };
    }),
    variations: rows.map(([name, supported, measure, figures]) => {
      const band: Band = supported >= 0 ? 'holds' : supported < -1 ? 'not yet' : 'close';
      return { name, bars: 8, slots: 128, band, supported, measure, measures: figures };
    }),
    perHand: { R: { measures: { scatter: figure(7, 0.4) } }, L: { measures: { scatter: figure(8, 0.3) } } },
    strokeTypes: { R: types, L: types },
    slots,
    counting: [],
    others: [],
    weakest: {
      scope: 'variation',
      variations: ['accent on 4'],
      variation: 'accent on 4',
      measure: 'leakBefore',
      hand: 'L',
      slot: 6,
      value: 5.1,
      sentence,
    },
  };
}
