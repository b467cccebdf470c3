import { remedyOf, type Remedy } from '../../grading/remedy/remedy';
import { rigRemedyOf, type RigRemedy } from '../../grading/remedy/rig-remedy';
import { remembered } from '../remembered';
import { chosenOf, ledBy } from '../../grading/chosen';
import type { Report, Weakest } from '../../grading/types';
import { slowestBpm } from '../../exercises/tempo';
import type { Take } from '../../sessions/types';
import type { Reviewed } from '../../take/reviewed';
import type { Reviewing, Treatment } from '../reviewing';

/** What leads in the place of what the report leads with; undefined where nothing was chosen. */
export const chosenIn = ({ take, report }: Reviewed): Weakest | undefined => chosenOf(report, take.first);

/** The report as pictures and tables show it: what leads is what they point at. */
export const ledReport = remembered((take: Take, report: Report): Report =>
  ledBy(report, chosenOf(report, take.first)),
);

/** The remedy of a take, for what leads; undefined where nothing is out, or nothing could be judged. */
export function remedyFor(reviewed: Reviewed): Remedy | undefined {
  const { take, report } = reviewed;
  if (!report.fits) return undefined;
  return remedyOf(report, take.phrase, slowestBpm(take.tempo), {}, chosenIn(reviewed));
}

/** What the one button of Review does. */
type NextStep =
  /** The rig comes first; what is to be played then, where there is something. */
  | {
      readonly kind: 'rig';
      readonly rig: RigRemedy;
      readonly then: Extract<NextStep, { kind: 'remedy' }> | null;
    }
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
  const ofHands = remedy === undefined ? null : ({ kind: 'remedy', remedy, before: reviewed } as const);
  const rig = rigRemedyOf(reviewed.report);
  // What a teacher has come first does, before the rig too.
  if (rig !== undefined && chosenIn(reviewed) === undefined) return { kind: 'rig', rig, then: ofHands };
  return ofHands ?? { kind: 'again' };
}

/** True where the take is one of the remedy, and not the one that asked for it. */
export function isOfRemedy({ remedy, before }: Treatment, { take }: Reviewed): boolean {
  const same = (a: Take['phrase'], b: Take['phrase']): boolean =>
    a.title === b.title &&
    a.bars.length === b.bars.length &&
    a.bars.every(({ sticking }, index) => sticking === b.bars[index].sticking);
  return take.id !== before.take.id && same(take.phrase, remedy.phrase);
}
