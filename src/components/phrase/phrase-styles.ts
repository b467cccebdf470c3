import { css } from 'lit';

/** Layout of the phrase screen. */
export const phraseStyles = css`
  .top {
    display: flex;
    flex-wrap: wrap;
    justify-content: space-between;
    align-items: end;
    gap: 24px;
    padding: 6px 0 18px;
  }
  .play {
    flex: none;
    min-width: 190px;
    min-height: 56px;
    font-size: 21px;
  }
  .numbers {
    display: flex;
    flex-wrap: wrap;
    gap: 14px 40px;
    padding: 0 0 22px;
    border-bottom: 1px solid var(--line);
  }
  .limits > span,
  .typing > label,
  .partials > span,
  legend {
    display: block;
    padding: 0;
    color: var(--quiet);
    font-size: 15px;
  }
  .warnings {
    margin: 14px 0 0;
    padding: 0 0 0 16px;
    border-left: 3px solid var(--quiet);
    list-style: none;
  }
  .hint {
    padding-top: 20px;
  }
  .choose {
    display: grid;
    align-content: start;
    gap: 22px;
  }
  .columns {
    display: grid;
    grid-template-columns: minmax(280px, 360px) minmax(0, 1fr);
    gap: 48px;
    padding-top: 20px;
  }
  fieldset {
    margin: 0;
    padding: 0;
    border: 0;
  }
  .choice {
    display: flex;
    align-items: baseline;
    gap: 12px;
    min-height: 40px;
    padding: 7px 0;
    cursor: pointer;
  }
  .choice:has(:checked) {
    font-weight: 700;
  }
  .choice input {
    flex: none;
    width: 18px;
    min-height: 18px;
    height: 18px;
    margin: 0;
    transform: translateY(3px);
    accent-color: var(--ink);
  }
  .typing {
    margin-top: 20px;
  }
  textarea {
    width: 100%;
    font:
      17px/1.5 ui-monospace,
      'DejaVu Sans Mono',
      monospace;
    resize: vertical;
  }
  .error {
    margin: 4px 0;
    color: var(--out);
    font-weight: 600;
  }
  .typing b {
    color: var(--ink);
  }
  .partials select {
    color: var(--ink);
    font-size: 17px;
  }
  .partials {
    display: flex;
    align-items: center;
    gap: 12px;
    margin-top: 10px;
  }
  .bars {
    display: flex;
    flex-direction: column;
    gap: 18px;
    margin: 0;
    padding: 0;
    list-style: none;
  }
  .bars h2 .quiet {
    font-size: 15px;
    font-weight: 400;
  }
  .bars .rows {
    margin-top: 6px;
    --most-letter: 30px;
  }
  .bundled {
    margin-top: 40px;
    padding-top: 18px;
    border-top: 1px solid var(--line);
  }
  .bundled th {
    width: 34%;
  }
  .bundled th .quiet {
    font-weight: 400;
    white-space: nowrap;
  }
  .bundled .end {
    width: 1%;
    padding-right: 0;
    white-space: nowrap;
  }
  @media (max-width: 900px) {
    .columns {
      grid-template-columns: minmax(0, 1fr);
      gap: 28px;
    }
    .choose {
      display: contents;
    }
    .choose fieldset {
      order: -2;
    }
    .shown {
      order: -1;
    }
    .typing {
      margin-top: 0;
    }
    .bars .rows {
      --most-letter: 26px;
    }
    fieldset {
      columns: 2;
      column-gap: 24px;
    }
    legend {
      column-span: all;
    }
  }
`;
