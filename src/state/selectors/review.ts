import { remedyOf, type Remedy } from '../../grading/remedy/remedy';
import type { Take } from '../../sessions/types';
import type { Reviewed } from '../../take/reviewed';
import type { Reviewing, Treatment } from '../reviewing';

/** The remedy of a take; undefined where nothing is out, or nothing could be judged. */
export function remedyFor({ take, report }: Reviewed): Remedy | undefined {
  if (!report.fits) return undefined;
  const { tempo } = take;
  return remedyOf(report, take.phrase, 'bpm' in tempo ? tempo.bpm : tempo.ramp[0].bpm);
}

/** What the one button of Review does. */
type NextStep =
  | { readonly kind: 'remedy'; readonly remedy: Remedy; readonly before: Reviewed }
  /** The same remedy once more: its stop rule is not reached, or not often enough. */
  | { readonly kind: 'remedy again'; readonly treatment: Treatment }
  /** The remedy did its work: back to the take that asked for it. */
  | { readonly kind: 'back'; readonly treatment: Treatment }
  | { readonly kind: 'again' };

/** What is to be played next, of the take that is open. */
export function nextStep(reviewing: Reviewing, reviewed: Reviewed): NextStep {
  const { treatment } = reviewing;
  if (treatment !== null && isOfRemedy(treatment, reviewed)) {
    return treatment.reached >= treatment.remedy.stop.takes
      ? { kind: 'back', treatment }
      : { kind: 'remedy again', treatment };
  }
  const remedy = remedyFor(reviewed);
  return remedy === undefined ? { kind: 'again' } : { kind: 'remedy', remedy, before: reviewed };
}

/** True where the take is one of the remedy, and not the one that asked for it. */
export function isOfRemedy({ remedy, before }: Treatment, { take }: Reviewed): boolean {
  const same = (a: Take['phrase'], b: Take['phrase']): boolean =>
    a.title === b.title &&
    a.bars.length === b.bars.length &&
    a.bars.every(({ sticking }, index) => sticking === b.bars[index].sticking);
  return take.id !== before.take.id && same(take.phrase, remedy.phrase);
}
