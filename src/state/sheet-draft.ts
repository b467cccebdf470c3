import type { Phrase } from '../exercises/types';
import { newTarget, targetOf } from '../sessions/week/new-target';
import type { WeekSheet, WeekTarget } from '../sessions/week-sheet';

/** What may be said of a week sheet that is being written. */
export type DraftSaid =
  | { readonly kind: 'open'; readonly sheet: WeekSheet }
  | {
      readonly kind: 'change';
      readonly change: Partial<Pick<WeekSheet, 'student' | 'bpm' | 'limits' | 'words' | 'due'>>;
    }
  | { readonly kind: 'phrase'; readonly phrase: Phrase }
  | { readonly kind: 'add target'; readonly target: WeekTarget['kind'] }
  | { readonly kind: 'target'; readonly index: number; readonly target: WeekTarget }
  | { readonly kind: 'remove target'; readonly index: number }
  | { readonly kind: 'close' };

/** The week sheet after something was said of it; null while none is written. */
export function draftHeard(draft: WeekSheet | null, said: DraftSaid): WeekSheet | null {
  if (said.kind === 'open') return said.sheet;
  if (draft === null || said.kind === 'close') return null;
  const { targets } = draft;
  switch (said.kind) {
    case 'change':
      return { ...draft, ...said.change };
    case 'phrase':
      return { ...draft, phrase: said.phrase, targets: targets.map((one) => within(said.phrase, one)) };
    case 'add target':
      return { ...draft, targets: [...targets, newTarget(said.target, draft)] };
    case 'target':
      return { ...draft, targets: targets.map((one, index) => (index === said.index ? said.target : one)) };
    case 'remove target':
      return { ...draft, targets: targets.filter((_, index) => index !== said.index) };
  }
}

/** Variations of a phrase that strokes are due in, each once. */
export function variationsOf({ bars }: Phrase): readonly string[] {
  return [
    ...new Set(bars.flatMap(({ variation, role }) => ((role ?? 'play') === 'play' ? [variation] : []))),
  ];
}

/** A target of a variation that the new phrase doesn't have is one of the whole phrase. */
function within(phrase: Phrase, target: WeekTarget): WeekTarget {
  if (!('variation' in target) || target.variation === undefined) return target;
  if (variationsOf(phrase).includes(target.variation)) return target;
  return targetOf(target, undefined);
}
