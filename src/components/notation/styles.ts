import { css } from 'lit';

/** Letters, counts and labels of engraved notation; the music itself takes the text colour. */
export const notationStyles = css`
  .engraving {
    overflow: hidden;
    color: var(--ink);
  }
  .system {
    break-inside: avoid;
  }
  svg {
    display: block;
  }
  .words {
    fill: var(--ink);
    stroke: none;
    font-family: var(--face);
    text-anchor: middle;
  }
  .words.mark {
    font-family: Bravura;
    font-size: 38px;
  }
  .accent {
    font-size: 17px;
    font-weight: 800;
  }
  .tap {
    font-size: 16px;
  }
  .ghost {
    font-size: 15px;
  }
  .grace {
    font-size: 12px;
  }
  .count,
  .beat {
    fill: var(--quiet);
    font-size: 13px;
  }
  .beat {
    fill: var(--ink);
    font-weight: 600;
  }
  .label {
    fill: var(--quiet);
    font-size: 14px;
    text-anchor: start;
  }
  [stroke='black'] {
    stroke: currentColor;
  }
  [fill='black'] {
    fill: currentColor;
  }
  .vf-stave path {
    stroke: var(--quiet);
  }
  .trouble {
    color: var(--out);
    font-weight: 600;
  }
`;
