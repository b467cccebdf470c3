import { expect, it } from 'vitest';
import { fileEffects } from '../../src/effects/files';
import type { FileReader } from '../../src/effects/file-reader';
import { takeEffects } from '../../src/effects/takes';
import { unkeptEffects } from '../../src/effects/unkept';
import { InputError } from '../../src/errors';
import { phraseNamed } from '../../src/exercises/phrase';
import { modelTake } from '../../src/model/model-player';
import { memoryStore } from '../../src/sessions/memory-store';
import { writeTake } from '../../src/sessions/take';
import { firstState } from '../../src/state/state';
import { fileRead } from '../../src/take/read-file';
import { contextFrom } from './context';

const { take } = modelTake({ phrase: phraseNamed('Single paradiddle, accent walk'), bpm: 84, seed: 5 });
const file = (name: string): File => new File([writeTake({ ...take, id: name })], name);

function pageWith(reader?: FileReader) {
  const store = memoryStore();
  const context = contextFrom({ ...firstState }, () => store);
  const takes = takeEffects(context, () => Promise.resolve());
  const files = fileEffects(
    context,
    {
      refresh: () => Promise.resolve(),
      takes,
      unkept: unkeptEffects(context, takes.settle, () => false),
      phrases: { add: () => Promise.resolve() },
      rigs: { add: () => undefined },
      sheets: { keep: () => Promise.resolve() },
      backup: { restore: () => Promise.resolve('a backup') },
    },
    () => Promise.resolve(),
    reader,
  );
  context.listen([takes, files]);
  return { ...context, kept: store };
}

it('files are read one after the other, how far is said, and those after a stop are not read', async () => {
  const asked: string[] = [];
  let giveUp: () => void = () => undefined;
  const reader: FileReader = {
    async read(one, facts) {
      asked.push(`${one.name}: ${JSON.stringify(state().library.reading)}`);
      if (one.name === 'slow') {
        await new Promise(
          (_, fail) => (giveUp = () => fail(new InputError('', 'was not read: you stopped it'))),
        );
      }
      return fileRead(new Uint8Array(await one.arrayBuffer()), facts);
    },
    stop: () => giveUp(),
  };
  const { state, dispatch, works, kept } = pageWith(reader);
  dispatch({ kind: 'add files', files: [file('first'), file('slow'), file('third')] });
  await expect.poll(() => asked.length).toBe(2);
  dispatch({ kind: 'stop reading' });
  await Promise.all(works);
  expect(asked).toEqual([
    'first: {"name":"first","index":0,"of":3}',
    'slow: {"name":"slow","index":1,"of":3}',
  ]);
  expect(state().library.reading).toBeNull();
  expect(state().library.files.map(({ name, added }) => [name, added])).toEqual([
    ['first', true],
    ['slow', false],
    ['third', false],
  ]);
  expect((await kept.list()).map(({ id }) => id)).toEqual(['first']);
});
