import { css, html, nothing, type TemplateResult } from 'lit';
import type { Hand } from '../stroke';
import type { Column } from './bar-columns';
import { percent } from './numbers';

/** Styles of {@link stickingRows}; `--letter` is the letters' size. */
export const stickingStyles = css`
  .rows {
    position: relative;
    --letter: 44px;
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
  .letters > .grace {
    font-size: calc(var(--letter) * 0.5);
    text-align: left;
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
 * The sticking of a bar: accent marks, R row over L row, the count with its accents large. A picture of what
 * {@link spokenSticking} says in words, so it is hidden from screen readers; say the words beside it.
 */
export function stickingRows(columns: readonly Column[]): TemplateResult {
  return html`<div class="rows" aria-hidden="true">
    <div class="row marks">
      ${columns.map((column) => (column.slot?.kind === 'accent' ? cell(column, '', accentMark) : nothing))}
    </div>
    ${letterRow(columns, 'R')} ${letterRow(columns, 'L')}
    <div class="row counts">
      ${columns.map((column) => cell(column, column.slot?.kind ?? 'rest', column.count))}
    </div>
  </div>`;
}

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
      if (column.slot === null) return nothing;
      if (column.slot.hand !== hand) return graceCell(column, hand);
      const narrow = column.width < NARROW_COLUMN ? ' narrow' : '';
      return cell(column, column.slot.kind + narrow, column.slot.kind === 'ghost' ? `(${hand})` : hand);
    })}
  </div>`;
}

/** Graces stand in their own hand's row, small, ahead of the stroke they lead to. */
function graceCell(column: Column, hand: Hand) {
  const graces = column.slot?.graces.filter((grace) => grace === hand) ?? [];
  return graces.length === 0 ? nothing : cell(column, 'grace', graces.join(''));
}

function cell(column: Column, kind: string, content: unknown): TemplateResult {
  return html`<span class=${kind} style="left:${percent(column.x)};width:${percent(column.width)}"
    >${content}</span
  >`;
}
