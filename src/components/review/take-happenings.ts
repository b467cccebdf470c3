import { html, nothing, type TemplateResult } from 'lit';
import type { Take } from '../../sessions/types';
import { happeningLines } from './happening-lines';

/** What happened beside the strokes while the take was played: the teacher's marks, and what went wrong. */
export function takeHappenings(take: Take): TemplateResult | typeof nothing {
  const lines = happeningLines(take);
  if (lines.length === 0) return nothing;
  return html`<div class="happened small">
    <p class="quiet">While it was played:</p>
    ${lines.map(({ when, words }) => html`<p><span class="quiet">${when}</span> ${words}</p>`)}
  </div>`;
}
