import { normal, seeded } from '../../../src/model/random';
import type { Asked } from '../../../src/midi/learning/asked-strokes';
import type { Struck } from '../../model-kit';
import type { Hand } from '../../../src/stroke';

/** What a player does who strikes as asked: half a second a stroke, and a pause of 1.5 s between what is asked. */
export function struckAsAsked<A extends Asked & { readonly spot?: Hand }>(
  asked: readonly A[],
  levelOf: (asked: A) => number,
  seed: number,
  spreadDb = 1.2,
): readonly Struck[] {
  const random = seeded(seed);
  let atMs = 0;
  return asked.flatMap((one) => {
    atMs += 1500;
    return Array.from({ length: one.strokes }, (): Struck => {
      atMs += 500;
      const levelDb = levelOf(one) + spreadDb * normal(random);
      return { atMs, pad: one.surface, levelDb, ...(one.spot === undefined ? {} : { spot: one.spot }) };
    });
  });
}
