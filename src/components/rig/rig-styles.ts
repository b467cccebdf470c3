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
  /* A phone has no space for columns: each row's cells stand under its name, with their column's words before them. */
  @media (max-width: 560px) {
    table.stacked,
    .stacked tbody,
    .stacked tr {
      display: block;
    }
    .stacked thead {
      position: absolute;
      width: 1px;
      height: 1px;
      overflow: hidden;
      clip-path: inset(50%);
    }
    .stacked tr {
      padding: 10px 0;
      border-bottom: 1px solid var(--line);
    }
    .stacked th,
    .stacked td {
      display: block;
      width: auto;
      padding: 3px 0;
      border-bottom: 0;
    }
    .stacked thead th {
      display: table-cell;
    }
    .stacked td[data-column]::before {
      content: attr(data-column) ' ';
      color: var(--quiet);
    }
    .stacked td.end {
      text-align: left;
    }
  }
  details > summary {
    min-height: 44px;
    padding: 8px 0;
    font-weight: 600;
    cursor: pointer;
  }
`;
