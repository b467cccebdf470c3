import { html, nothing, type TemplateResult } from 'lit';
import type { Report } from '../../grading/types';
import { type PictureName, type Reviewing, WHOLE_TAKE } from '../../state/reviewing';
import type { TakeCeilings } from '../../insight/take-ceilings';
import type { Take } from '../../sessions/types';
import { fire } from '../shared/events';
import { capital } from '../shared/numbers';
import './element';
import { bandsOfTake } from './bands-of-take';
import { pictureByReason, pictureNames, pictureOf, pictureWords, type PictureOf } from './choice';

/** Pictures of no variation of its own. */
const ofTheTake: readonly PictureName[] = ['arrival', 'soft strokes', 'variations', 'tempo', 'ceiling'];
/** Pictures of one bar, which a whole take is not. */
const ofOneBar: readonly PictureName[] = ['levels by place', 'timing by place', 'grace notes'];

/** The picture asked for, or the one that shows the reason; under it, the others as plain links. */
export function picturesOf(
  host: HTMLElement,
  take: Take,
  report: Report,
  reviewing: Reviewing,
  ceilings: TakeCeilings | null,
): TemplateResult | typeof nothing {
  const name = reviewing.picture ?? pictureByReason(take, report);
  const { bands, beside } = reviewing;
  const of: PictureOf = {
    ...chosenOf(report, reviewing),
    ceilings,
    ...(bands && beside !== null ? { bands: bandsOfTake(beside.report) } : {}),
  };
  const offered = pictureNames.filter((one) => one === name || pictureOf(take, report, one, of) !== null);
  if (offered.length === 0) return nothing;
  const picture = name === null ? null : pictureOf(take, report, name, of);
  return html`<section class="pictures" aria-label="Pictures">
    ${
      picture === null
        ? nothing
        : html`<evenhand-picture
            .picture=${picture}
            .fileName=${`${take.recordedAt.slice(0, 10)}-${picture.name.replaceAll(' ', '-')}`}
          ></evenhand-picture>`
    }
    <nav aria-label="Pictures of this take">
      ${offered.map(
        (one) =>
          html`<button
            class="plain ${one === name ? '' : 'quiet'}"
            aria-current=${one === name ? 'true' : nothing}
            @click=${() => fire(host, { kind: 'picture', name: one })}
          >
            ${pictureWords[one]}
          </button>`,
      )}
      ${name === null || ofTheTake.includes(name) ? nothing : variationChoice(host, report, name, of)}
    </nav>
  </section>`;
}

function chosenOf({ weakest }: Report, { pictureOf: asked }: Reviewing): PictureOf {
  if (asked === WHOLE_TAKE) return { variation: null };
  return { variation: asked ?? weakest?.variation ?? null };
}

function variationChoice(
  host: HTMLElement,
  { variations, weakest }: Report,
  name: PictureName,
  { variation }: PictureOf,
) {
  if (variations.length < 2) return nothing;
  const oneBar = ofOneBar.includes(name);
  const chosen = variation ?? (oneBar ? (weakest?.variation ?? variations[0].name) : WHOLE_TAKE);
  const choices = [...variations.map((one) => one.name), ...(oneBar ? [] : [WHOLE_TAKE])];
  return html`<label
    >of
    <select
      @change=${(event: Event) => {
        if (!(event.target instanceof HTMLSelectElement)) return;
        fire(host, { kind: 'picture of', variation: event.target.value });
      }}
    >
      ${choices.map((one) => html`<option value=${one} ?selected=${one === chosen}>${capital(one)}</option>`)}
    </select></label
  >`;
}
