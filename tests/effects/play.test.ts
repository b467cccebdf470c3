import { expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import type { Desk } from '../../src/effects/page-effects';
import { playWires } from '../../src/effects/play';
import { takeDesk } from '../../src/effects/takes';
import type { Commands } from '../../src/state/commands';
import { modelTake } from '../../src/model/model-player';
import { firstSitting, next } from '../../src/state/reducer';
import { memoryStore } from '../../src/sessions/memory-store';

it('a note on the last take stays with it, thrown away and put back while the note is still being kept', async () => {
  const { take } = modelTake({ phrase: phraseNamed('Single paradiddle, accent walk'), bpm: 84, seed: 5 });
  const kept = memoryStore();
  const store = { ...kept, put: (one: typeof take) => slow().then(() => kept.put(one)) };
  await kept.put(take);
  let sitting = next(firstSitting, { kind: 'last', last: { take, sentence: '', kept: true } });
  const works: Promise<void>[] = [];
  const desk: Desk = {
    sitting: () => sitting,
    say: (said) => (sitting = next(sitting, said)),
    store: () => store,
    trouble: (error) => {
      throw error;
    },
    attempt: (work) => works.push(work()),
  };
  const handlers: { [Name in keyof Commands]?: (detail: Commands[Name]) => void } = {};
  playWires((name, handler) => Object.assign(handlers, { [name]: handler }), desk, {
    play: {
      isRunning: () => false,
      start: () => undefined,
      note: () => undefined,
      stop: () => Promise.resolve(undefined),
    },
    takes: takeDesk(desk, () => Promise.resolve()),
    stopped: () => Promise.resolve(),
  });

  handlers['note-last']?.({ text: 'left heavy' });
  handlers['throw-away']?.(undefined);
  await Promise.all(works);
  expect(sitting.last).toMatchObject({ kept: false, take: { notes: 'left heavy' } });
  expect(await kept.list({ most: 5 })).toEqual([]);

  handlers['put-back']?.(undefined);
  await Promise.all(works);
  expect(await kept.get(take.id)).toMatchObject({ notes: 'left heavy' });
});

const slow = (): Promise<void> => new Promise((end) => setTimeout(end, 20));
