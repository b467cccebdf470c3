import { css } from 'lit';

/**
 * Space for a page on screen, px: the paper scrolls with the page, not in a window of its own. The page of a note
 * forbids scripts and fetching itself.
 */
const PAPER_PX = 1180;

/** What is written on the left, the paper as it will be on the right: lesson note, term report, week sheet. */
export const paperStyles = css`
  .top {
    display: flex;
    flex-wrap: wrap;
    align-items: baseline;
    justify-content: space-between;
    gap: 8px 24px;
    padding-bottom: 14px;
  }
  h1 {
    font-size: 26px;
  }
  .columns {
    display: grid;
    grid-template-columns: minmax(0, 380px) minmax(0, 1fr);
    gap: 24px 36px;
  }
  label span {
    display: block;
    color: var(--quiet);
    font-size: 15px;
  }
  label {
    display: block;
    padding-bottom: 14px;
  }
  label input,
  label textarea {
    width: 100%;
  }
  .actions {
    display: flex;
    flex-wrap: wrap;
    gap: 10px;
    padding: 8px 0 18px;
  }
  ul {
    margin: 0 0 14px;
    padding: 0;
    list-style: none;
  }
  li {
    display: flex;
    justify-content: space-between;
    gap: 12px;
    padding: 4px 0;
    border-top: 1px solid var(--line);
  }
  li button {
    text-align: left;
    overflow-wrap: anywhere;
  }
  iframe {
    display: block;
    width: 100%;
    height: ${PAPER_PX}px;
    border: 1px solid var(--line);
    background: #fff;
    color-scheme: light;
  }
  @media (max-width: 900px) {
    .columns {
      grid-template-columns: minmax(0, 1fr);
    }
  }
`;
