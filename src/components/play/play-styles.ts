import { css } from 'lit';

/** Layout of the play screen: nothing above the set-up moves, whatever happens. */
export const playStyles = css`
  .top {
    display: flex;
    justify-content: space-between;
    align-items: flex-end;
    gap: 24px;
    min-height: 122px;
    padding-bottom: 14px;
    contain: layout style;
  }
  .where {
    flex: 1 1 0;
    min-width: 0;
  }
  h1 {
    overflow: hidden;
    max-height: 2.4em;
  }
  .where p {
    overflow: hidden;
    text-overflow: ellipsis;
    white-space: nowrap;
  }
  .where .tempo {
    min-height: 1.4em;
    font-size: 20px;
    font-weight: 600;
  }
  /* As wide and as high as its words may ever need: a figure that changes moves nothing. */
  .figure {
    flex: none;
    width: 46%;
    min-height: 124px;
    text-align: right;
  }
  .figure p.quiet {
    min-height: 2.5em;
    line-height: 1.25;
  }
  .number {
    min-height: 80px;
    font-size: 84px;
    font-weight: 800;
    line-height: 0.95;
    letter-spacing: -0.03em;
  }
  .step {
    display: flex;
    flex-direction: column;
    align-items: flex-end;
    justify-content: flex-end;
    gap: 6px;
  }
  .says {
    font-size: 34px;
    font-weight: 800;
    line-height: 1.15;
  }
  .figure.step p.quiet {
    min-height: 0;
  }
  .bottom {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 14px 32px;
    align-items: start;
    min-height: 150px;
    margin-top: 18px;
    padding-top: 16px;
    border-top: 1px solid var(--line);
  }
  .unheard {
    grid-column: 1 / -1;
    margin: 0;
    font-weight: 700;
  }
  .unheard:empty {
    display: none;
  }
  .go {
    flex: none;
    width: 190px;
  }
  .go button {
    width: 100%;
    min-height: 56px;
    margin-bottom: 4px;
    font-size: 21px;
  }
  .go p {
    min-height: 2.6em;
    line-height: 1.3;
  }
  .teacher {
    grid-column: 1 / -1;
    font-size: 15px;
  }
  .teacher button {
    min-height: 44px;
    padding-inline: 0;
    font-size: 16px;
  }
  .choices {
    display: flex;
    flex-wrap: wrap;
    gap: 12px 24px;
  }
  .choices label,
  .strikes {
    flex: 0 1 260px;
  }
  .strikes {
    flex: 1 1 220px;
  }
  .choices label > span,
  .label {
    display: block;
    color: var(--quiet);
    font-size: 15px;
  }
  select {
    width: 100%;
  }
  .strikes p {
    padding-top: 9px;
  }
  .next-take {
    grid-column: 1 / -1;
    display: block;
  }
  .last {
    grid-column: 1 / -1;
    display: block;
  }
  .midi {
    display: flex;
    justify-content: space-between;
    align-items: start;
    gap: 24px;
    max-width: 900px;
    font-size: 16px;
  }
  slot[name='options'] {
    display: block;
  }
  .midi button {
    flex: none;
  }
  @media (max-width: 900px) {
    .number {
      font-size: 76px;
    }
    .top p.quiet {
      font-size: 15px;
    }
    .where p.quiet {
      min-height: 2.6em;
      line-height: 1.3;
      white-space: normal;
    }
    .where .tempo {
      font-size: 17px;
    }
    .figure p.quiet {
      min-height: 3.75em;
    }
    .go {
      width: 150px;
    }
    .figure {
      width: 42%;
    }
  }
  @media (max-width: 600px) {
    .top {
      flex-direction: column;
      align-items: stretch;
      gap: 4px;
    }
    .where {
      flex: none;
    }
    .figure {
      display: grid;
      grid-template-columns: 150px minmax(0, 1fr);
      gap: 14px;
      align-items: end;
      width: auto;
      min-height: 98px;
      text-align: left;
    }
    .number {
      font-size: 60px;
    }
    .figure p.quiet {
      display: grid;
      align-content: end;
      min-height: 6.25em;
    }
    .step {
      display: flex;
      align-items: flex-start;
    }
    .says {
      font-size: 26px;
    }
    .bottom {
      grid-template-columns: minmax(0, 1fr);
    }
    .go {
      display: grid;
      grid-template-columns: 150px minmax(0, 1fr);
      gap: 14px;
      align-items: center;
      width: 100%;
    }
    .go button {
      margin: 0;
    }
    .go p {
      min-height: 0;
    }
    .midi,
    slot[name='options'] {
      flex-wrap: wrap;
    }
  }
`;
