import { css, html, svg, type TemplateResult } from 'lit';
import { HOLDS, IDEAL, marginX, NOT_YET } from './margin-scale';
import { fixed, percent } from '../shared/numbers';

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
    ><span class="visually-hidden">${margin === null ? 'no margin' : `margin ${fixed(margin, 2)}`}</span>`;
}

/** The words over a column of margins. */
export function marginScale(): TemplateResult {
  return html`<span class="scale" aria-hidden="true">
      <span style="left:${percent(NOT_YET)}">not yet</span><span style="left:${percent(HOLDS)}">holds</span
      ><span style="left:${percent(IDEAL)}">ideal</span> </span
    ><span class="visually-hidden">margin</span>`;
}
