import type { Alignment, Extra, Slip, SlotOutcome } from '../../src/alignment/types';
import { gridOf } from '../../src/exercises/grid';
import type { Phrase, PhraseBar, Slot } from '../../src/exercises/types';
import type { Graded } from '../../src/grading/graded';
import { settingsOf, type Limits } from '../../src/settings';
import type { Stroke } from '../../src/stroke';
import { velocityOfLevel } from '../../src/units';

/** What the player makes of one slot. Left out: the default player's. */
export interface Struck {
  /** dB re velocity 127. */
  readonly level?: number;
  /** ms, negative early. */
  readonly late?: number;
  readonly velocity?: number;
  readonly status?: 'missed' | 'slipped' | 'tooSoft' | 'notMeasured' | 'notPlayed';
  readonly wrongHand?: boolean;
  readonly surface?: string;
}

export interface Playing {
  /** Variation and sticking, one a bar of the cycle. */
  readonly bars: readonly (readonly [variation: string, sticking: string])[];
  readonly cycles: number;
  readonly bpm?: number;
  readonly beatsPerBar?: number;
  readonly partialsPerBeat?: number;
  readonly strike?: (slot: Slot) => Struck;
  readonly limits?: Limits;
  readonly settings?: Readonly<Record<string, number>>;
  readonly hands?: Graded['hands'];
  readonly extras?: readonly Extra[];
  readonly slips?: readonly Slip[];
  readonly alignment?: Partial<Alignment>;
  readonly echoes?: number;
  readonly conditioning?: Partial<Graded['conditioning']>;
}

export const ACCENT_DB = -4;
export const SOFT_DB = -22;

/** Accents at -4 dB and soft strokes at -22, every one on its slot: 18 dB of contrast, the ideal. */
export function played(playing: Playing): Graded {
  const partials = playing.partialsPerBeat ?? 4;
  const bars = playing.bars.map(([variation, sticking]): PhraseBar => ({ variation, sticking }));
  const phrase: Phrase = {
    title: 'hand-made',
    beatsPerBar: playing.beatsPerBar ?? 4,
    partialsPerBeat: partials,
    cycles: playing.cycles,
    bars,
  };
  const grid = gridOf(phrase, { bpm: playing.bpm ?? 120 }, 0);
  const strokes: Stroke[] = [];
  const outcomes = grid.slots.map((slot): SlotOutcome => {
    const struck = playing.strike?.(slot) ?? {};
    if (struck.status === 'slipped') return { status: struck.status, stroke: null, deviationMs: null };
    if (struck.status) return { status: struck.status };
    const level = struck.level ?? (slot.kind === 'accent' ? ACCENT_DB : SOFT_DB);
    const deviationMs = struck.late ?? 0;
    strokes.push({
      hit: strokes.length,
      atMs: slot.atMs + deviationMs,
      levelDb: level,
      velocity: struck.velocity ?? Math.round(velocityOfLevel(level)),
      surface: struck.surface ?? 'pad',
      hand: null,
      echoLike: false,
    });
    return {
      status: 'matched',
      stroke: strokes.length - 1,
      deviationMs,
      wrongHand: struck.wrongHand ?? false,
    };
  });
  const limits = playing.limits ?? 'working';
  return {
    takeId: 'take',
    limits,
    settings: settingsOf(limits, playing.settings),
    hands: playing.hands ?? 'known',
    grid,
    strokes,
    alignment: {
      offsetMs: 0,
      limitGaps: 0.4,
      outcomes,
      extras: playing.extras ?? [],
      echoes: Array.from({ length: playing.echoes ?? 0 }, (_, i) => i),
      slips: playing.slips ?? [],
      otherBars: [],
      course: [],
      doubles: [],
      slipsNotToldBecause: null,
      misfit: null,
      ...playing.alignment,
    },
    conditioning: { forerunners: 0, crosstalk: 0, unmapped: 0, ...playing.conditioning },
    cycles: { due: playing.cycles, played: playing.cycles },
    variationsDue: [...new Set(grid.bars.map(({ variation }) => variation))],
    barsDue: grid.bars.length,
  };
}

/** The single paradiddle with its accent on each partial in turn. */
export const accentWalk = [
  ['accent on 1', 'Rlrr Lrll Rlrr Lrll'],
  ['accent on 2', 'rLrr lRll rLrr lRll'],
  ['accent on 3', 'rlRr lrLl rlRr lrLl'],
  ['accent on 4', 'rlrR lrlL rlrR lrlL'],
] as const;

/** The same order of strokes started from each of its notes, accent held on the beat. */
export const rotations = [
  ['RLRR LRLL', 'Rlrr Lrll Rlrr Lrll'],
  ['RLLR LRRL', 'Rllr Lrrl Rllr Lrrl'],
  ['RRLR LLRL', 'Rrlr Llrl Rrlr Llrl'],
  ['RLRL LRLR', 'Rlrl Lrlr Rlrl Lrlr'],
] as const;

/** A small steady spread without a random number: -1, 0, 1, 0 by pass through the cycle, offset by slot. */
export function wobble(slot: Slot): number {
  return [-1, 0, 1, 0][(slot.cycle + slot.slot) % 4];
}
