import { css } from 'lit';

/** What every element shares: type, buttons, fields, tables, focus. The colours are tokens of `look.css`. */
export const look = css`
  :host {
    display: block;
    color: var(--ink);
    font-variant-numeric: tabular-nums;
  }
  :host([hidden]) {
    display: none;
  }
  *,
  *::before,
  *::after {
    box-sizing: border-box;
  }
  h1,
  h2,
  h3,
  p {
    margin: 0;
  }
  h1 {
    font-size: 34px;
    line-height: 1.2;
    letter-spacing: -0.01em;
  }
  h2 {
    font-size: 19px;
    line-height: 1.3;
  }
  .quiet {
    color: var(--quiet);
  }
  .small {
    font-size: 15px;
  }
  .out {
    color: var(--out);
    font-weight: 700;
  }
  button,
  .button {
    min-height: 44px;
    padding: 8px 16px;
    border: var(--thick) solid var(--ink);
    border-radius: 3px;
    background: none;
    color: inherit;
    font: inherit;
    font-weight: 600;
    cursor: pointer;
  }
  button:hover:not(:disabled) {
    background: var(--band);
  }
  button.strong {
    background: var(--ink);
    color: var(--paper);
  }
  button.strong:hover:not(:disabled) {
    background: var(--ink);
    text-decoration: underline;
    text-underline-offset: 4px;
  }
  @media (forced-colors: active) {
    /* The system lays its own ground behind words. */
    button.strong,
    button.strong:hover:not(:disabled) {
      border-width: 4px;
      background: ButtonFace;
      color: ButtonText;
    }
  }
  button.plain {
    min-height: 32px;
    padding: 2px 4px;
    border: 0;
    font-weight: 500;
    text-decoration: underline;
    text-decoration-thickness: 1px;
    text-underline-offset: 4px;
  }
  button:disabled {
    border-color: var(--line);
    background: none;
    color: var(--quiet);
    cursor: default;
  }
  input,
  select,
  textarea {
    min-height: 44px;
    padding: 6px 10px;
    border: 1px solid var(--quiet);
    border-radius: 3px;
    background: var(--paper);
    color: inherit;
    font: inherit;
  }
  [aria-invalid='true'] {
    border: 2px solid var(--out);
  }
  :focus-visible {
    outline: 3px solid var(--ink);
    outline-offset: 2px;
  }
  table {
    width: 100%;
    border-collapse: collapse;
  }
  th,
  td {
    padding: 9px 12px 9px 0;
    border-bottom: 1px solid var(--line);
    text-align: left;
    vertical-align: baseline;
  }
  thead th {
    color: var(--quiet);
    font-weight: 400;
  }
  .visually-hidden {
    position: absolute;
    width: 1px;
    height: 1px;
    margin: -1px;
    overflow: hidden;
    clip-path: inset(50%);
    white-space: nowrap;
  }
`;
