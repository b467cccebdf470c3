import { html, nothing, type TemplateResult } from 'lit';
import type { SheetShown } from '../../state/library';
import type { State } from '../../state/state';
import { deferred, remembered } from '../../state/remembered';
import { teacherMay } from '../../state/selectors/library';
import { inputOfTake } from '../../state/takes';
import { withoutFile } from '../../state/unkept';
import { STEADY_MODEL } from '../../insight/compare/side-by-side';
import { courseOf } from '../../insight/take-course';
import { ceilingsBeside } from '../../insight/take-ceilings';
import { outcomeWords } from '../../sessions/week/target-words';
import { exercisesWith } from '../../sessions/week/exercises';
import { targetsMet } from '../../sessions/week/targets-met';
import '../library/give-to';
import type { Reviewed } from '../../take/reviewed';
import { calledPlayers } from '../../sessions/player-code';
import { phraseKeyOf, type TakeSummary } from '../../sessions/take-record';
import { TEACHER, TEACHER_NAME } from '../../sessions/teacher';
import './review-screen';
import type { Neighbours, TakeChoice } from '../shared/types';
import { notePage } from '../papers/note-page';

/** The Review screen, or the note that is written of its take. */
export function reviewPage(state: State): TemplateResult {
  if (state.note !== null) return notePage(state, state.note);
  return html`<evenhand-review-screen
    .take=${state.reviewed?.take ?? null}
    .report=${state.reviewed?.report ?? null}
    .ceilings=${state.reviewed === null ? undefined : ceilings(state.reviewed, state.library.takes, -new Date().getTimezoneOffset())}
    .alike=${state.reviewed === null ? [] : alike(state.reviewed, state.library.takes, state.library.teacherTakes, state.bundled)}
    .course=${state.reviewed === null ? undefined : course(state.reviewed)}
    .reviewing=${state.reviewing}
    .hearing=${state.sounding}
    .teachers=${state.reviewed !== null && isTeachers(state.reviewed.take, state.library)}
    .teacherMay=${teacherMay(state.library)}
    .justPlayed=${isJustPlayed(state)}
    .noteBegun=${isNoteBegun(state)}
    .neighbours=${state.reviewed === null ? noNeighbours : neighbours(state.reviewed.take, state.library)}
    .opened=${state.opened}
    .unkept=${withoutFile(state.unkept).find(({ take }) => take.id === state.reviewed?.take.id) ?? null}
    >${reached(state)}${giveTake(state)}</evenhand-review-screen
  >`;
}

/** Neither has to be there with the sentence. */
const ceilings = deferred(ceilingsBeside);
const course = deferred(courseOf);

/** One that was given to a player is theirs, whoever played it. */
const isTeachers = ({ id, teacher }: Reviewed['take'], library: State['library']): boolean =>
  ownerHere(library, id) === TEACHER || (teacher === true && ownerHere(library, id) === '');

/** The last one, which can be thrown away where it is looked at. */
const isJustPlayed = ({ reviewed, last }: State): boolean =>
  last !== null && last.kept && last.take.id === reviewed?.take.id;

const isNoteBegun = ({ reviewed, library }: State): boolean =>
  library.begun.some(({ draft }) => draft.of === 'note' && draft.takeId === reviewed?.take.id);

/** What the open take came to of the week sheet it was played to. */
function reached({ reviewed, library }: State): TemplateResult | typeof nothing {
  const words = reachedOf(reviewed, library.sheets);
  if (words.length === 0) return nothing;
  return html`<div slot="reached">
    <h2 class="small">Of its week sheet</h2>
    <ul>
      ${words.map((one) => html`<li>${one}</li>`)}
    </ul>
  </div>`;
}

/** Only a take that is kept can be somebody's; one that is nobody's yet can be given to all. */
function giveTake({ reviewed, library }: State): TemplateResult | typeof nothing {
  const id = reviewed?.take.id;
  const owner = ownerHere(library, id);
  if (id === undefined || (owner === '' && !library.nobodysTakes.some((take) => take.id === id)))
    return nothing;
  return html`<evenhand-give-to
    slot="give"
    .itemId=${id}
    .others=${[...calledPlayers(library.players), { id: TEACHER, name: TEACHER_NAME }].filter((player) => player.id !== owner)}
  ></evenhand-give-to>`;
}

/** Whose a take is, as far as the page has it; empty where it is nobody's. */
function ownerHere({ takes, teacherTakes, playerId }: State['library'], takeId: string | undefined): string {
  if (teacherTakes.some(({ id }) => id === takeId)) return TEACHER;
  return takes.some(({ id }) => id === takeId) ? playerId : '';
}

const noNeighbours = { earlier: null, later: null };

/** The takes before and after the open one, of whose it is. */
const neighbours = remembered(
  (open: Reviewed['take'], { takes, teacherTakes, nobodysTakes }: State['library']): Neighbours => {
    const all = [takes, teacherTakes, nobodysTakes].find((list) => list.some(({ id }) => id === open.id));
    if (all === undefined) return noNeighbours;
    const at = all.findIndex(({ id }) => id === open.id);
    return { earlier: all.at(at + 1) ?? null, later: at === 0 ? null : all[at - 1] };
  },
);

/** Targets of the week sheet that the open take was played to, with what it came to by itself. */
const reachedOf = remembered(
  (reviewed: State['reviewed'], sheets: readonly SheetShown[]): readonly string[] => {
    const sheet = sheets.find((one) => one.sheet.id === reviewed?.take.sheetId)?.sheet;
    if (sheet === undefined || reviewed === null) return [];
    return exercisesWith(sheet, reviewed.take.phrase).flatMap((one) =>
      targetsMet({ ...one, limits: sheet.limits }, [reviewed]).map(outcomeWords),
    );
  },
);

/** Takes of the open one's phrase: the teacher's, the player's own, each newest first, then the model player's, played here and bundled. */
const alike = remembered(
  (
    { take }: Reviewed,
    kept: readonly TakeSummary[],
    teachers: readonly TakeSummary[],
    bundled: State['bundled'],
  ): readonly TakeChoice[] => {
    const key = phraseKeyOf(take.phrase);
    const own = [...teachers, ...kept].filter(
      ({ id, phraseKey, graded }) => id !== take.id && phraseKey === key && graded !== null,
    );
    return [
      ...own,
      {
        id: STEADY_MODEL,
        recordedAt: '',
        title: 'steady, of this phrase',
        bpm: firstBpm(take),
        sentence: '',
      },
      ...bundledChoices(bundled.filter((one) => one.title === take.phrase.title && one.take?.id !== take.id)),
    ];
  },
);

const firstBpm = ({ tempo }: Reviewed['take']): number => ('bpm' in tempo ? tempo.bpm : tempo.ramp[0].bpm);

export function bundledChoices(bundled: State['bundled']): readonly TakeChoice[] {
  return bundled.map(({ name, words, title, bpm, sentence }) => ({
    id: inputOfTake(name),
    recordedAt: '',
    title: `${words}: ${title}`,
    bpm,
    sentence,
  }));
}
