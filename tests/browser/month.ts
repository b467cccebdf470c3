import { phraseNamed } from '../../src/exercises/phrase';
import { remedyFor } from '../../src/sessions/take-record';
import { modelTake } from '../../src/model/model-player';
import type { Take } from '../../src/sessions/types';
import type { WeekSheet } from '../../src/sessions/week-sheet';

export const phrase = phraseNamed('Single paradiddle, accent walk');

export const sheet: WeekSheet = {
  format: 'evenhand-week',
  version: 1,
  id: 'sheet-1',
  student: 'A 7',
  phrase,
  bpm: 92,
  limits: 'working',
  targets: [
    { kind: 'tempo', bpm: 92 },
    { kind: 'minutes', minutes: 2 },
  ],
  words: 'Let the left hand stay low.',
  due: '2026-03-24',
  changedAt: '2026-03-16T18:00:00.000Z',
};

const DAYS = 12;

/**
 * Takes of one student over four weeks, by the model player: three days a week, a cold take and two warm ones, the last
 * faster than it holds; the left hand’s leak is mended on the way, accents grow, the tempo goes up. Half-way a remedy
 * and a week sheet begin.
 */
export function monthOfTakes(): readonly Take[] {
  return Array.from({ length: DAYS }, (_, index) => {
    const day = String(2 + 7 * Math.floor(index / 3) + 2 * (index % 3)).padStart(2, '0');
    const warmBpm = 80 + 2 * index;
    const own = [
      played(index, { minute: 0, bpm: warmBpm - 6, accentDb: -7, cold: true }),
      played(index, { minute: 6, bpm: warmBpm, accentDb: -7 + 0.4 * index }),
      played(index, { minute: 9, bpm: warmBpm + 14, accentDb: -9, breaks: true }),
    ].map((take) => ({
      ...take,
      recordedAt: take.recordedAt.replace('DAY', day),
      ...(index < 6 ? {} : { sheetId: sheet.id }),
    }));
    return index === 4 ? [...own, remedyTake(own[1])] : own;
  }).flat();
}

interface Playing {
  readonly minute: number;
  readonly bpm: number;
  readonly accentDb: number;
  readonly cold?: boolean;
  readonly breaks?: boolean;
}

function played(index: number, { minute, bpm, accentDb, cold = false, breaks = false }: Playing): Take {
  const { take } = modelTake({
    phrase,
    bpm,
    seed: 100 + 10 * index + minute,
    cycles: 3,
    accentDb,
    tapDb: -20,
    timingSdMs: breaks ? 16 : 6,
    levelSdDb: breaks ? 3 : 1.2,
    faults: [{ kind: 'leak-before', hand: 'L', db: Math.max(0, 6 - index / 2), variation: 'accent on 4' }],
    id: `month-${index}-${minute}`,
  });
  const recordedAt = `2026-03-DAYT17:0${minute}:00.000Z`;
  return { ...take, recordedAt, player: 'A 7', cold };
}

function remedyTake(of: Take): Take {
  const alone = phrase.bars.filter(({ variation }) => variation === 'accent on 4');
  const title = 'accent on 4, alone';
  const { take } = modelTake({
    phrase: { ...phrase, title, bars: alone },
    bpm: 76,
    seed: 5,
    cycles: 8,
    id: 'remedy',
  });
  return {
    ...of,
    ...take,
    recordedAt: of.recordedAt.replace('17:06', '17:20'),
    player: 'A 7',
    remedy: remedyFor(phrase.title, title),
  };
}
