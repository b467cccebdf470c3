import type { Phrase } from '../../exercises/types';

/** Variations of a phrase that strokes are due in, each once. */
export function variationsOf({ bars }: Phrase): readonly string[] {
  return [
    ...new Set(bars.flatMap(({ variation, role }) => ((role ?? 'play') === 'play' ? [variation] : []))),
  ];
}
