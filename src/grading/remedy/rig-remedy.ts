import type { RigFault } from '../../words/en';
import { rigWords, type RigCause, type RigStep } from '../../words/rig-steps';
import type { Course } from '../../alignment/course/types';
import type { Report } from '../types';

/** What to see to on the rig before anything is practised. Plain data. */
export interface RigRemedy {
  /** The step of Rig that it opens. */
  readonly step: RigStep;
  /** What to do there, as an order. */
  readonly sentence: string;
  /** What it is for. */
  readonly purpose: string;
  /** When it is done. */
  readonly done: string;
}

/**
 * The step of Rig for the first thing of it that a report's sentence tells.
 * @returns undefined where the rig stands in the way of nothing
 */
export function rigRemedyOf(report: Told): RigRemedy | undefined {
  const cause = causeOf(report);
  if (cause === undefined) return undefined;
  const { todo, purpose, done } = rigWords[cause];
  return { step: steps[cause], sentence: todo, purpose, done };
}

type Told = Pick<Report, 'course' | 'misfit' | 'saying' | 'falseNotesKnown'>;

const steps: Readonly<Record<RigCause, RigStep>> = {
  'false notes': 'false notes',
  twice: 'false notes',
  clipping: 'heights',
  'few loudnesses': 'heights',
  latency: 'delays',
};

/** In the order in which they are said. */
function causeOf({ course, misfit, saying, falseNotesKnown }: Told): RigCause | undefined {
  if (misfit !== null) {
    if (misfit.reason !== 'rig') return undefined;
    return falseNotesKnown === true ? 'twice' : 'false notes';
  }
  const ofCourse = course.flatMap(({ kind }) => courseCauses[kind] ?? []);
  const named = saying.flatMap((one) => (one.key === 'rig first' ? one.args.faults.map(ofFault) : []));
  return [...ofCourse, ...named].at(0);
}

const courseCauses: Readonly<Partial<Record<Course['kind'], RigCause>>> = {
  latency: 'latency',
  doubles: 'twice',
  'one loudness': 'few loudnesses',
  'few loudnesses': 'few loudnesses',
};

const ofFault = ({ kind }: RigFault): RigCause => (kind === 'clipping' ? kind : 'false notes');
