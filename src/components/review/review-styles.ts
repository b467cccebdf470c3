import { css } from 'lit';

/** Layout of the review screen. */
export const reviewStyles = css`
  article h1 {
    max-width: 34em;
    margin: 4px 0 8px;
    font-size: 30px;
    text-wrap: balance;
  }
  .next {
    margin: 16px 0 22px;
  }
  .next .remedy,
  .guessed {
    max-width: 52em;
    margin-bottom: 10px;
  }
  .next .outcome,
  .guessed {
    font-weight: 600;
  }
  .guessed {
    margin-top: 8px;
  }
  .chosen {
    max-width: 52em;
    margin-bottom: 8px;
  }
  .else {
    max-width: 62em;
    margin-top: 12px;
  }
  .else summary {
    min-height: 32px;
  }
  .else ul {
    margin: 4px 0 0;
    padding: 0;
    list-style: none;
  }
  .else li {
    display: flex;
    flex-wrap: wrap;
    align-items: baseline;
    justify-content: space-between;
    gap: 0 16px;
    padding: 6px 0;
    border-bottom: 1px solid var(--line);
  }
  .else li span {
    flex: 1 1 24em;
  }
  .press {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 8px 16px;
  }
  .press p {
    flex: 1 1 22em;
    max-width: 44em;
  }
  .actions {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 8px 22px;
    margin: 18px 0 0;
    font-size: 15px;
  }
  .actions label {
    display: flex;
    align-items: center;
    gap: 8px;
    min-height: 44px;
  }
  .actions input {
    width: 20px;
    min-height: 20px;
    height: 20px;
    margin: 0;
    accent-color: var(--ink);
  }
  .variations th,
  .variations td {
    padding-right: 10px;
    white-space: nowrap;
  }
  .variations thead th {
    font-size: 15px;
    line-height: 1.2;
    vertical-align: bottom;
    white-space: normal;
  }
  .variations tbody th {
    font-weight: 700;
    white-space: normal;
  }
  .variations .margins {
    width: 22%;
    vertical-align: middle;
  }
  .variations .reason {
    font-weight: 800;
  }
  .variations .reason.not {
    color: var(--out);
  }
  .number-button {
    min-height: 28px;
    padding: 0 4px;
    border: 0;
    margin: 0 -4px;
    font-weight: inherit;
    text-align: inherit;
  }
  .number-button:hover:not(:disabled) {
    background: none;
    text-decoration: underline;
    text-underline-offset: 4px;
  }
  .apart {
    margin-top: 18px;
  }
  .hint {
    margin-top: 6px;
  }
  evenhand-strokes-behind {
    margin-top: 18px;
  }
  .variations .none {
    color: var(--quiet);
  }
  .pictures {
    margin-top: 26px;
  }
  .pictures nav {
    display: flex;
    flex-wrap: wrap;
    align-items: baseline;
    gap: 2px 18px;
    margin-top: 8px;
    font-size: 15px;
  }
  .pictures nav [aria-current] {
    font-weight: 700;
    text-decoration-thickness: 2px;
  }
  .pictures select {
    min-height: 36px;
    max-width: 100%;
    padding: 2px 8px;
    font-size: 15px;
  }
  .counts {
    margin-top: 18px;
  }
  details {
    margin-top: 18px;
  }
  summary {
    padding: 8px 0;
    font-weight: 600;
    cursor: pointer;
  }
  /* What is said to screen readers alone stays inside what scrolls: else it would widen the page. */
  .wide {
    position: relative;
    overflow-x: auto;
  }
  .printed {
    display: none;
  }
  .all th,
  .all td {
    padding-top: 3px;
    padding-bottom: 3px;
    font-size: 15px;
    white-space: nowrap;
  }
  .all tbody th {
    max-width: 15em;
    white-space: normal;
  }
  .all tbody th .quiet {
    font-weight: 400;
  }
  .all tbody th {
    vertical-align: top;
  }
  .all .words {
    width: 60%;
    white-space: normal;
  }
  .all .number {
    text-align: right;
    white-space: nowrap;
    padding-right: 22px;
  }
  .others {
    display: flex;
    flex-wrap: wrap;
    gap: 4px 22px;
    padding-top: 12px;
    border-top: 1px solid var(--line);
    margin-top: 34px;
  }
  @media print {
    .printed {
      display: block;
      margin-bottom: 6px;
    }
    .press,
    .ceiling button,
    .apart button,
    details:not([open]),
    .hint,
    .actions,
    .pictures nav,
    .others {
      display: none;
    }
  }
  @media (max-width: 900px) {
    article h1 {
      font-size: 26px;
    }
    .variations {
      font-size: 15px;
    }
    .variations thead th {
      font-size: 14px;
    }
    .variations .margins {
      min-width: 150px;
    }
    .variations .scale {
      min-width: 140px;
      font-size: 13px;
    }
    .variations th,
    .variations td {
      padding-right: 7px;
    }
  }
  /* Paper doesn't scroll: every column has to stand on it. */
  @media print {
    .wide {
      overflow: visible;
    }
    .variations,
    .variations thead th {
      font-size: 12px;
    }
    .variations th,
    .variations td {
      padding-right: 5px;
    }
    .variations .margins {
      width: 20%;
      min-width: 110px;
    }
    .variations .scale {
      min-width: 100px;
      font-size: 11px;
    }
    tr {
      break-inside: avoid;
    }
  }
`;
