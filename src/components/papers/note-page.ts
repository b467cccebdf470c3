import { html, type TemplateResult } from 'lit';
import { notedBeside } from '../../insight/noted';
import type { NoteDraft } from '../../state/note-draft';
import { remembered } from '../../state/remembered';
import type { State } from '../../state/state';

/** The lesson note of the take that is open; its element is fetched when it is first shown. */
export function notePage({ reviewed, library }: State, { text, sayings }: NoteDraft): TemplateResult {
  void import('./lesson-note-screen');
  return html`<evenhand-lesson-note-screen
    .noted=${reviewed === null ? null : noted(reviewed, library.takes, text.date, -new Date().getTimezoneOffset())}
    .text=${text}
    .sayings=${sayings}
  ></evenhand-lesson-note-screen>`;
}

const noted = remembered(notedBeside);
