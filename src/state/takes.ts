import type { Take } from '../sessions/types';
import { reviewAnew } from './reviewing';
import { ownInput } from './bundled-input';
import { withTakeOf } from './phrase';
import type { BundledTake, Sitting, TakesSaid } from './state';

/** The sitting after something was said of takes that were played. */
export function takesHeard(sitting: Sitting, said: TakesSaid): Sitting {
  switch (said.kind) {
    case 'reviewed':
      return {
        ...sitting,
        reviewed: { take: said.take, report: said.report },
        reviewing: reviewAnew(sitting.reviewing, { take: said.take, report: said.report }),
        screen: 'review',
        problem: '',
      };
    case 'again':
      return { ...withTakeOf(ownInput(sitting), said.take), screen: 'play', live: null };
    case 'kept':
      return { ...sitting, kept: said.kept };
    case 'bundled':
      return { ...sitting, bundled: withTake(sitting.bundled, said.name, said.take) };
  }
}

function withTake(bundled: readonly BundledTake[], name: string, take: Take): readonly BundledTake[] {
  return bundled.map((one) => (one.name === name ? { ...one, take } : one));
}
