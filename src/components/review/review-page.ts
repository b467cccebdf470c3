import { html, nothing, type TemplateResult } from 'lit';
import type { SheetShown } from '../../state/sheets';
import { STEADY_MODEL } from '../../insight/compare/side-by-side';
import { courseOf } from '../../insight/take-course';
import { ceilingsBeside } from '../../insight/take-ceilings';
import { inputOfTake, type Sitting } from '../../state/reducer';
import { outcomeWords } from '../../sessions/week/target-words';
import { targetsMet } from '../../sessions/week/targets-met';
import '../library/give-take';
import type { Reviewed } from '../../take/reviewed';
import { phraseKeyOf, type TakeSummary } from '../../sessions/take-record';
import './review-screen';
import type { TakeChoice } from '../shared/types';
import { notePage } from '../papers/note-page';
import { deferred, remembered } from '../../state/remembered';

/** The Review screen, or the note that is written of its take. */
export function reviewPage(sitting: Sitting): TemplateResult {
  if (sitting.noting !== null) return notePage(sitting, sitting.noting);
  return html`<evenhand-review-screen
    .take=${sitting.reviewed?.take ?? null}
    .report=${sitting.reviewed?.report ?? null}
    .ceilings=${sitting.reviewed === null ? undefined : ceilings(sitting.reviewed, sitting.keeping.takes)}
    .alike=${sitting.reviewed === null ? [] : alike(sitting.reviewed, sitting.keeping.takes, sitting.bundled)}
    .course=${sitting.reviewed === null ? undefined : course(sitting.reviewed)}
    .reviewing=${sitting.reviewing}
    .hearing=${sitting.hearing}
    .saved=${sitting.kept}
    .bundled=${bundledChoices(sitting.bundled)}
    >${reached(sitting)}${giveTake(sitting)}</evenhand-review-screen
  >`;
}

/** Neither has to be there with the sentence. */
const ceilings = deferred(ceilingsBeside);
const course = deferred(courseOf);

/** What the open take came to of the week sheet it was played to. */
function reached({ reviewed, keeping }: Sitting): TemplateResult | typeof nothing {
  const words = reachedOf(reviewed, keeping.sheets);
  if (words.length === 0) return nothing;
  return html`<div slot="reached">
    <h2 class="small">Of its week sheet</h2>
    <ul>
      ${words.map((one) => html`<li>${one}</li>`)}
    </ul>
  </div>`;
}

/** Only a take that is kept has an owner. */
function giveTake({ reviewed, keeping }: Sitting): TemplateResult | typeof nothing {
  const id = reviewed?.take.id;
  if (id === undefined || !keeping.takes.some((take) => take.id === id)) return nothing;
  return html`<evenhand-give-take
    slot="give"
    .takeId=${id}
    .others=${keeping.players.filter((player) => player.id !== keeping.playerId)}
  ></evenhand-give-take>`;
}

/** Targets of the week sheet that the open take was played to, with what it came to by itself. */
const reachedOf = remembered(
  (reviewed: Sitting['reviewed'], sheets: readonly SheetShown[]): readonly string[] => {
    const sheet = sheets.find((one) => one.sheet.id === reviewed?.take.sheetId)?.sheet;
    return sheet === undefined || reviewed === null ? [] : targetsMet(sheet, [reviewed]).map(outcomeWords);
  },
);

/** Takes of the open one's phrase: the player's own, newest first, then the model player's, played here and bundled. */
const alike = remembered(
  ({ take }: Reviewed, kept: readonly TakeSummary[], bundled: Sitting['bundled']): readonly TakeChoice[] => {
    const key = phraseKeyOf(take.phrase);
    const own = kept.filter(
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

function bundledChoices(bundled: Sitting['bundled']): readonly TakeChoice[] {
  return bundled.map(({ name, words, title, bpm, sentence }) => ({
    id: inputOfTake(name),
    recordedAt: '',
    title: `${words}: ${title}`,
    bpm,
    sentence,
  }));
}
