import type { Graded } from '../grading/graded';
import { gradedOf } from '../take/grade-take';
import type { Stroke } from '../stroke';
import type { Slot } from '../exercises/types';
import type { GradedFile } from './advice';
import type { Group } from './grouped';
import { playerKey } from './players';
import { csvText, rounded, type Cell, type Decimal } from './sheet';
import { bpmsOf, codesOf, dayOf, takesOf } from './summary';

const HEAD = [
  'file',
  'player',
  'day',
  'phrase',
  'bpm',
  'bar',
  'variation',
  'beat',
  'partial',
  'hand',
  'kind',
];
const STRUCK = ['status', 'time ms', 'velocity', 'level dB', 'deviation ms'];

/**
 * Every slot and every stroke that answered none, a row each, in time order within their file. Times are on the clock of the
 * take, from its downbeat; `deviation ms` has the offset still in it, as the report has.
 */
export function strokesCsv(groups: readonly Group<GradedFile>[], decimal: Decimal): string {
  const codes = codesOf(groups);
  const rows = takesOf(groups).flatMap((one) => {
    const [bpm] = bpmsOf(one);
    const code = codes.get(playerKey(one.take));
    const head: Cell[] = [one.file, code, dayOf(one), one.take.phrase.title, rounded(bpm, 1)];
    return strokeRows(gradedOf(one.take)).map((row) => [...head, ...row]);
  });
  return csvText([[...HEAD, ...STRUCK], ...rows], decimal);
}

function strokeRows({ grid, strokes, alignment }: Graded): readonly (readonly Cell[])[] {
  const downbeatMs = grid.bars[0].startMs;
  const slots = alignment.outcomes.map((outcome, index) => {
    const slot = grid.slots[index];
    const stroke = strokeOf(outcome, strokes);
    return {
      atMs: slot.atMs,
      cells: [...slotCells(slot), outcome.status, ...struckCells(stroke, downbeatMs, deviationOf(outcome))],
    };
  });
  const extras = alignment.extras.map(({ stroke, bar }) => ({
    atMs: strokes[stroke].atMs - alignment.offsetMs,
    cells: [
      rounded(bar + 1, 0),
      grid.bars[bar].variation,
      undefined,
      undefined,
      strokes[stroke].hand ?? '',
      undefined,
      'extra',
      ...struckCells(strokes[stroke], downbeatMs),
    ],
  }));
  return [...slots, ...extras].sort((a, b) => a.atMs - b.atMs).map(({ cells }) => cells);
}

type SlotOutcome = Graded['alignment']['outcomes'][number];

const slotCells = ({ bar, variation, beat, partialInBeat, hand, kind }: Slot): Cell[] => [
  rounded(bar + 1, 0),
  variation,
  rounded(beat + 1, 0),
  rounded(partialInBeat + 1, 0),
  hand,
  kind,
];

function struckCells(stroke: Stroke | undefined, downbeatMs: number, deviationMs?: number): Cell[] {
  if (stroke === undefined) return [undefined, undefined, undefined, undefined];
  return [
    rounded(stroke.atMs - downbeatMs, 1),
    rounded(stroke.velocity, 0),
    rounded(stroke.levelDb, 1),
    deviationMs === undefined ? undefined : rounded(deviationMs, 1),
  ];
}

function strokeOf(outcome: SlotOutcome, strokes: readonly Stroke[]): Stroke | undefined {
  if (!('stroke' in outcome) || outcome.stroke === null) return undefined;
  return strokes[outcome.stroke];
}

function deviationOf(outcome: SlotOutcome): number | undefined {
  return 'deviationMs' in outcome && outcome.deviationMs !== null ? outcome.deviationMs : undefined;
}
