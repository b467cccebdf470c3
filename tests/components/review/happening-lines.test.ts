import { expect, it } from 'vitest';
import { happeningLines } from '../../../src/components/review/happening-lines';
import { phraseNamed } from '../../../src/exercises/phrase';
import { modelTake } from '../../../src/model/model-player';
import { readTake, writeTake } from '../../../src/sessions/take';

const { take: plain } = modelTake({
  phrase: phraseNamed('Single paradiddle, accent walk'),
  bpm: 84,
  seed: 1,
  cycles: 2,
});
const downbeatMs = plain.downbeatMs ?? 0;
const take = {
  ...plain,
  events: [
    { kind: 'mark', atMs: downbeatMs + 95_400, cycle: 1, barInCycle: 3 },
    { kind: 'port gone', atMs: downbeatMs + 100_000, port: 'Pad' },
  ],
} as const;

// 95.4 s are 1 min 35 s.
it('a mark and a fault stand with their time in the take, the mark with its bar', () => {
  expect(happeningLines(take)).toEqual([
    { when: '1:35', words: 'The teacher marked bar 4 of cycle 2: accent on 4.' },
    {
      when: '1:40',
      words: 'Pad is not connected. The take goes on; strokes count again when it is back.',
    },
  ]);
  expect(happeningLines(plain)).toEqual([]);
});

it('events go out to a file and come back, those of a kind nobody knows yet too', () => {
  const odd = { ...take, events: [...take.events, { kind: 'from another day', atMs: 3, with: [1, 2] }] };
  expect(readTake(writeTake(odd as never))).toEqual(odd);
  expect(happeningLines(odd as never)).toHaveLength(2);
});

it('an event without a time is bad input, and says where', () => {
  const bad = { ...take, events: [{ kind: 'mark' }] };
  expect(() => readTake(writeTake(bad as never))).toThrow(/^events\[0\]\.atMs/);
});
