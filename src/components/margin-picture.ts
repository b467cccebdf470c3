import { css, html, svg, type TemplateResult } from 'lit';
import { fixed, percent } from './numbers';

export const marginStyles = css`
  .margin {
    position: relative;
    display: block;
    width: 100%;
    min-width: 110px;
    height: 22px;
    overflow: visible;
  }
  .margin .good {
    fill: var(--band);
  }
  .margin .tick {
    stroke: var(--quiet);
  }
  .margin .limit {
    stroke: var(--ink);
    stroke-width: 1.5;
  }
  .margin .reach {
    stroke: var(--ink);
    stroke-width: 3;
  }
  .margin circle {
    fill: var(--ink);
  }
  .scale {
    position: relative;
    display: block;
    min-width: 110px;
    height: 1.4em;
    font-size: 14px;
  }
  .scale span {
    position: absolute;
    transform: translateX(-50%);
    white-space: nowrap;
  }
`;

/** Where −1, 0 and +1 stand in the width: the ends leave room for words and for what lies beyond. */
const NOT_YET = 0.15;
const HOLDS = 0.5;
const IDEAL = 0.85;
/** Margins lower than this stand at the edge. */
const LEAST = -1.4;

/** A margin as a place in the width: +1 ideal, 0 *holds* limit, −1 *not yet* limit. */
export function marginX(margin: number): number {
  const held = Math.max(LEAST, Math.min(1, margin));
  return HOLDS + held * (IDEAL - HOLDS);
}

/** A margin drawn between *not yet*, *holds* and *ideal*: a line from the limit to where it stands. */
export function marginPicture(margin: number | null): TemplateResult {
  const at = margin === null ? null : percent(marginX(margin));
  return html`<svg class="margin" aria-hidden="true">
      <rect class="good" x=${percent(HOLDS)} width=${percent(IDEAL - HOLDS)} y="5" height="12" />
      <line class="tick" x1=${percent(NOT_YET)} x2=${percent(NOT_YET)} y1="4" y2="18" />
      <line class="limit" x1=${percent(HOLDS)} x2=${percent(HOLDS)} y1="2" y2="20" />
      ${
        at === null
          ? ''
          : svg`<line class="reach" x1=${percent(HOLDS)} x2=${at} y1="11" y2="11" /><circle cx=${at} cy="11" r="5.5" />`
      }</svg
    ><span class="heard">${margin === null ? 'no margin' : `margin ${fixed(margin, 2)}`}</span>`;
}

/** The words over a column of margins. */
export function marginScale(): TemplateResult {
  return html`<span class="scale" aria-hidden="true">
      <span style="left:${percent(NOT_YET)}">not yet</span><span style="left:${percent(HOLDS)}">holds</span
      ><span style="left:${percent(IDEAL)}">ideal</span> </span
    ><span class="heard">margin</span>`;
}
