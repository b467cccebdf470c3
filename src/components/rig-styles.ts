import { css } from 'lit';

/** What the parts of the Rig screen share. */
export const rigStyles = css`
  section {
    margin-top: 26px;
    padding-top: 14px;
    border-top: 1px solid var(--line);
  }
  h2 {
    margin-bottom: 6px;
  }
  .words {
    max-width: 46em;
  }
  .row {
    display: flex;
    flex-wrap: wrap;
    gap: 8px 14px;
    align-items: center;
    margin-top: 10px;
  }
  .scroll {
    overflow-x: auto;
  }
  td.end {
    text-align: right;
    white-space: nowrap;
  }
  input.name {
    width: 100%;
    min-width: 8em;
    max-width: 15em;
  }
  td select {
    min-width: 6.2em;
  }
  details > summary {
    min-height: 44px;
    padding: 8px 0;
    font-weight: 600;
    cursor: pointer;
  }
`;
