import type { PhraseProgress } from '../../insight/ceiling/progress';
import { ceilingWords, changeWords, perWeekWords } from '../../insight/ceiling/words';
import type { CeilingCourse } from '../../insight/history/shown';
import type { CoursePicture } from './picture';
import type { Shared } from './weeks';

/** Clean bars by tempo with the ceiling over them, titled with how it stands and what became of it. */
export function coursePicture(
  course: CeilingCourse | null,
  { variations }: PhraseProgress,
  shared: Shared,
): CoursePicture {
  const own = course === null ? undefined : variations.get(course.of);
  const whose = course === null || variations.size < 2 ? '' : ` of ${course.of}`;
  const perWeek = own === undefined ? '' : perWeekWords(own.change);
  return {
    kind: 'course',
    name: 'course',
    title:
      own === undefined
        ? 'Ceiling tempo'
        : `Ceiling tempo${whose}: ${ceilingWords(own.ceiling)}; ${changeWords(own.change)}`,
    of: perWeek === '' ? 'no slope yet' : perWeek,
    drawn:
      'bars by tempo in bpm, a square filled as far as they were clean; the line is where four bars of five are, in its 90 % band; an arrow: over, or under, all that was tried',
    tried: course?.tried ?? [],
    spells: course?.spells ?? [],
    ...shared,
    empty:
      course === null
        ? 'Clean bars by tempo will stand here, and the ceiling they make from six bars on.'
        : '',
  };
}
