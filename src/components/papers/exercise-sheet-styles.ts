import { css } from 'lit';

/** A page of paper: black on white in any theme, as wide as A4 and Letter have between 15 mm margins. */
export const sheetStyles = css`
  :host {
    --paper: #ffffff;
    --ink: #000000;
    --quiet: #3d3b37;
    --line: #8a857b;
    min-height: 100vh;
    padding: 20px;
    overflow-x: auto;
    background: var(--paper);
    color: var(--ink);
    color-scheme: light;
  }
  .tools {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 12px;
    max-width: 680px;
    margin: 0 auto 28px;
    padding-bottom: 16px;
    border-bottom: 1px solid var(--line);
  }
  .paper {
    width: 680px;
    margin: 0 auto;
    font-size: 15px;
  }
  header {
    display: flex;
    align-items: end;
    justify-content: space-between;
    gap: 24px;
    margin-bottom: 4px;
  }
  h1 {
    font-size: 24px;
  }
  .who {
    flex: none;
    width: 230px;
  }
  .ruled {
    display: flex;
    align-items: end;
    gap: 8px;
  }
  .ruled span:empty {
    display: none;
  }
  .ruled span {
    flex: none;
    padding-bottom: 2px;
  }
  .ruled input {
    flex: 1;
    min-width: 0;
    min-height: 30px;
    padding: 2px 4px 0;
    border: 0;
    border-bottom: 1px solid var(--ink);
    border-radius: 0;
    background: none;
  }
  evenhand-notation {
    margin: 14px 0 6px;
  }
  .sticking {
    margin: 0;
    padding-left: 24px;
    font-size: 17px;
  }
  .small {
    font-size: 13px;
  }
  table {
    table-layout: fixed;
    margin: 16px 0 10px;
    break-inside: avoid;
  }
  caption {
    padding-bottom: 6px;
    font-size: 14px;
    text-align: left;
  }
  th,
  td {
    padding: 4px 0;
    border-bottom: 1px solid var(--line);
    text-align: center;
    vertical-align: middle;
  }
  tbody th {
    font-size: 17px;
  }
  [type='checkbox'] {
    display: block;
    width: 20px;
    height: 20px;
    min-height: 0;
    margin: 0 auto;
    padding: 0;
    border: 1.5px solid var(--ink);
    border-radius: 0;
    appearance: none;
  }
  [type='checkbox']:checked {
    position: relative;
  }
  [type='checkbox']:checked::after {
    position: absolute;
    left: 5px;
    top: 0;
    width: 6px;
    height: 12px;
    border: solid var(--ink);
    border-width: 0 2.5px 2.5px 0;
    content: '';
    transform: rotate(40deg);
  }
  .teacher {
    break-inside: avoid;
  }
  .teacher input {
    font-size: 19px;
  }
  .caution {
    margin-top: 14px;
    font-size: 12.5px;
  }
  @media print {
    :host {
      min-height: 0;
      padding: 0;
      overflow: visible;
    }
    .tools {
      display: none;
    }
    .paper {
      margin: 0;
    }
    th,
    td {
      padding: 1px 0;
    }
  }
`;
