import { html, type TemplateResult } from 'lit';
import type { Noting } from '../../state/note';
import type { Sitting } from '../../state/reducer';

/** The lesson note of the take that is open; its element is fetched when it is first shown. */
export function notePage({ reviewed }: Sitting, noting: Noting): TemplateResult {
  void import('./lesson-note-screen');
  return html`<evenhand-lesson-note-screen
    .noted=${reviewed}
    .text=${noting.text}
    .sayings=${noting.sayings}
  ></evenhand-lesson-note-screen>`;
}
