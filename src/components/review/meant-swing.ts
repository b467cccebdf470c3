import { html, nothing, type TemplateResult } from 'lit';
import { asSwung, swingPlayed } from '../../take/meant-swing';
import type { Reviewed } from '../../take/reviewed';
import { fire } from '../shared/events';

/** Where off-beats came late on purpose: the way to have the take graded by that swing. */
export function meantSwing(host: HTMLElement, { take, report }: Reviewed): TemplateResult | typeof nothing {
  const percent = swingPlayed(report);
  if (percent === undefined || asSwung(take, report) === undefined) return nothing;
  return html`<p class="small">
    <button class="plain" @click=${() => fire(host, { kind: 'meant swing' })}>I meant to swing</button>
    <span class="quiet"
      >The take is graded anew, with the phrase swung at ${percent} % as you played it.</span
    >
  </p>`;
}
