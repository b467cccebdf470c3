import { phraseNamed } from '../src/exercises/phrase';
import { gradedOf } from '../src/take/grade-take';
import { meanBpm } from '../src/take/own-time';
import { modelTake, type ModelPlayer } from '../src/model/model-player';
import type { Take } from '../src/sessions/types';
import type { Table } from './table';

const TAKES = 100;
const BPM = 84;
const CYCLES = 8;
const BARS = 32;
const WALK = phraseNamed('Single paradiddle, accent walk');
const GAP = 60_000 / BPM / 4;

const bent = (percentABar: number, bars: number): { bar: number; bpm: number }[] => [
  { bar: 0, bpm: BPM },
  { bar: bars, bpm: BPM * (1 + percentABar / 100) ** bars },
  ...(bars < BARS ? [{ bar: 2 * bars, bpm: BPM }] : []),
];

/** What is played; whether the take is marked as one whose tempo is meant to move; and what is wanted. */
const cases: readonly (readonly [string, Partial<ModelPlayer>, boolean, string])[] = [
  ['steady, 8 ms', { timingSdMs: 8 }, false, '99 %'],
  ['steady, 12 % of the gap', { timingSdMs: 0.12 * GAP }, false, '-'],
  ['steady, 15 % of the gap', { timingSdMs: 0.15 * GAP }, false, '-'],
  ['steady, 8 ms, 3 % missed, 3 % added', { timingSdMs: 8, missed: 0.03, added: 0.03 }, false, '-'],
  ['1 % a bar faster, 8 ms', { timingSdMs: 8, ramp: bent(1, BARS) }, false, '99 %'],
  ['1 % a bar slower, 8 ms', { timingSdMs: 8, ramp: bent(-1, BARS) }, false, '99 %'],
  ['3 % a bar faster, 8 ms', { timingSdMs: 8, ramp: bent(3, 12) }, false, '-'],
  ['8 % a bar up and down, marked, 8 ms', { timingSdMs: 8, ramp: bent(8, 6), cycles: 3 }, true, '99 %'],
];

function freeOf(
  player: ModelPlayer,
  marked: boolean,
): { readonly take: Take } & ReturnType<typeof modelTake> {
  const made = modelTake(player);
  const tempo = marked && player.ramp !== undefined ? { ramp: player.ramp } : { bpm: BPM };
  return { ...made, take: { ...made.take, click: 'none', downbeatMs: null, tempo } };
}

/** Takes without a click by the model player: whether each stroke is in the slot it was meant for, and the tempo is what was played. */
export function run(): Promise<readonly Table[]> {
  const rows = cases.map(([name, player, marked, wanted]) => {
    let [right, slots, fit, meanOff, worst] = [0, 0, 0, 0, 1];
    for (let seed = 1; seed <= TAKES; seed += 1) {
      const whole = { phrase: WALK, bpm: BPM, seed, cycles: CYCLES, ...player };
      const { take, truth } = freeOf(whole, marked);
      const { alignment, strokes, freeTime } = gradedOf(take);
      const own = truth.hitOfSlot.filter((meant, slot) => {
        const outcome = alignment.outcomes.at(slot);
        return meant === (outcome?.status === 'matched' ? strokes[outcome.stroke].hit : null);
      }).length;
      right += own;
      slots += truth.hitOfSlot.length;
      worst = Math.min(worst, own / truth.hitOfSlot.length);
      fit += Number(alignment.misfit === null);
      if (freeTime !== undefined) meanOff += Math.abs(meanBpm(freeTime) / BPM - 1);
    }
    const percent = (share: number): string => `${(100 * share).toFixed(2)} %`;
    const tempoOff = player.ramp === undefined ? percent(meanOff / TAKES) : '-';
    return [name, percent(right / slots), percent(worst), wanted, `${fit} of ${TAKES}`, tempoOff];
  });
  return Promise.resolve([
    {
      title: `Free time: no downbeat, no tempo told (${TAKES} takes a row; a tempo changing by 1 % a bar is to be followed, 8 % where it is marked)`,
      columns: ['take', 'slots right', 'least in a take', 'wanted', 'said to fit', 'mean tempo off by'],
      rows,
    },
  ]);
}
