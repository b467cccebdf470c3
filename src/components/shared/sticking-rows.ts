import { css, html, nothing, type TemplateResult } from 'lit';
import type { Foot } from '../../exercises/types';
import type { Hand } from '../../stroke';
import type { Column } from '../../sessions/paper/strip/columns';
import { percent } from './numbers';

/** Styles of {@link stickingRows}; `--most-letter` is the letters' size, where there is space. */
export const stickingStyles = css`
  .fit {
    container-type: inline-size;
  }
  .rows {
    position: relative;
    /* As large as is asked for, or as two neighbours of one hand leave space for. */
    --letter: min(var(--most-letter, 44px), max(19px, calc(var(--narrowest) * 138cqi)));
  }
  .row {
    position: relative;
    height: calc(var(--letter) * 1.04);
  }
  .row > span {
    position: absolute;
    top: 0;
    height: 100%;
    text-align: center;
    white-space: nowrap;
  }
  .marks {
    height: calc(var(--letter) * 0.5);
  }
  .marks > span {
    display: flex;
    align-items: center;
    justify-content: center;
    line-height: 0;
  }
  .marks svg {
    width: calc(var(--letter) * 0.62);
    height: calc(var(--letter) * 0.34);
    overflow: visible;
  }
  .letters > span {
    font-size: var(--letter);
    line-height: calc(var(--letter) * 1.04);
    font-weight: 400;
  }
  .letters > .accent {
    font-weight: 800;
  }
  .letters > .ghost {
    font-size: calc(var(--letter) * 0.72);
  }
  .letters > .grace,
  .letters small {
    font-size: calc(var(--letter) * 0.5);
    font-weight: 400;
  }
  .letters > .grace {
    text-align: left;
  }
  .feet {
    height: 28px;
  }
  .feet > span {
    font-size: max(16px, calc(var(--letter) * 0.45));
    font-weight: 600;
    line-height: 28px;
  }
  .feet > .soft {
    font-size: max(15px, calc(var(--letter) * 0.38));
    font-weight: 400;
    color: var(--quiet);
  }
  .feet > .word {
    right: 100%;
    margin-right: 10px;
    color: var(--quiet);
    font-size: 16px;
    font-weight: 400;
  }
  .letters > .narrow {
    letter-spacing: -0.06em;
    transform: scaleX(0.8);
  }
  .counts {
    height: 30px;
  }
  .counts > span {
    font-size: max(15px, calc(var(--letter) * 0.4));
    line-height: 30px;
    color: var(--quiet);
  }
  .counts > .accent {
    color: var(--ink);
    font-size: max(19px, calc(var(--letter) * 0.54));
    font-weight: 800;
  }
`;

const NARROW_COLUMN = 1 / 20;

/**
 * The sticking of a bar: accent marks, R row over L row, the count with its accents large; the feet, where there are
 * any, in rows of their own beneath, K over H. A picture of what
 * {@link spokenSticking} says in words, so it is hidden from screen readers; say the words beside it.
 */
export function stickingRows(columns: readonly Column[]): TemplateResult {
  const narrowest = Math.min(...columns.map(({ width }) => width));
  return html`<div class="fit">
    <div class="rows" aria-hidden="true" style="--narrowest:${narrowest}">
      <div class="row marks">
        ${columns.map((column) => (isAccented(column) ? cell(column, '', accentMark) : nothing))}
      </div>
      ${letterRow(columns, 'R')} ${letterRow(columns, 'L')}
      <div class="row counts">
        ${columns.map((column) => cell(column, isAccented(column) ? 'accent' : 'quiet', column.count))}
      </div>
      ${feetOf(columns).map((foot, row) => footRow(columns, foot, row === 0 ? 'feet' : ''))}
    </div>
  </div>`;
}

const isAccented = ({ slots }: Column): boolean => slots.some(({ kind }) => kind === 'accent');

const accentMark = html`<svg viewBox="0 0 28 15" preserveAspectRatio="none">
  <path
    d="M1 1 L27 7.5 L1 14"
    fill="none"
    stroke="currentColor"
    stroke-width="2.6"
    vector-effect="non-scaling-stroke"
  />
</svg>`;

function letterRow(columns: readonly Column[], hand: Hand): TemplateResult {
  return html`<div class="row letters">
    ${columns.map((column) => {
      const own = column.slots.find((slot) => slot.hand === hand);
      const graces = (column.slot?.graces ?? []).filter((grace) => grace === hand).join('');
      // Graces stand in their own hand's row, small, ahead of the stroke they lead to.
      if (own === undefined) return graces === '' ? nothing : cell(column, 'grace', graces);
      const letter = own.kind === 'ghost' ? `(${hand})` : hand;
      const narrow = column.width < NARROW_COLUMN ? ' narrow' : '';
      const before = graces === '' ? nothing : html`<small>${graces}</small>`;
      return cell(column, own.kind + narrow, html`${before}${letter}`);
    })}
  </div>`;
}

/** The feet that do something. */
function feetOf(columns: readonly Column[]): readonly Foot[] {
  return (['K', 'H'] as const).filter((foot) =>
    columns.some(({ feet }) => feet.some((one) => one.foot === foot)),
  );
}

function footRow(columns: readonly Column[], foot: Foot, word: string): TemplateResult {
  return html`<div class="row feet">
    <span class="word">${word}</span>
    ${columns.map((column) => {
      const own = column.feet.find((one) => one.foot === foot);
      return own === undefined ? nothing : cell(column, own.soft ? 'soft' : '', foot);
    })}
  </div>`;
}

function cell(column: Column, kind: string, content: unknown): TemplateResult {
  return html`<span class=${kind} style="left:${percent(column.x)};width:${percent(column.width)}"
    >${content}</span
  >`;
}
