import { html, type TemplateResult } from 'lit';
import type { NoteDraft } from '../../state/note-draft';
import type { State } from '../../state/state';

/** The lesson note of the take that is open; its element is fetched when it is first shown. */
export function notePage({ reviewed }: State, draft: NoteDraft): TemplateResult {
  void import('./lesson-note-screen');
  return html`<evenhand-lesson-note-screen
    .noted=${reviewed}
    .text=${draft.text}
    .sayings=${draft.sayings}
  ></evenhand-lesson-note-screen>`;
}
