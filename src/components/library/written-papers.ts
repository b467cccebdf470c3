import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Begun, Draft } from '../../sessions/draft';
import type { Given } from '../../sessions/given';
import type { Action } from '../../state/actions';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import { dayAndTime } from '../shared/numbers';

/** So many of what was given stand in the open; the others under a fold. */
const NEWEST = 5;

/**
 * What was written for the player in turn: notes, week sheets and term reports that are begun, each to go on with; and
 * what was given to them, with its words as they were then, newest first.
 * @fires action go on with note {takeId} @fires action edit sheet {sheet, playerId} @fires action write term
 * @fires action drop draft {begun} @fires action go {screen}
 */
@customElement('evenhand-written-papers')
export class WrittenPapers extends LitElement {
  @property({ attribute: false }) begun: readonly Begun[] = [];
  @property({ attribute: false }) given: readonly Given[] = [];
  /** Whose papers they are, as a heading says it; empty where there is nobody else. */
  @property() whose = '';

  static override styles = [
    look,
    css`
      section {
        margin-top: 26px;
      }
      ul {
        margin: 8px 0 0;
        padding: 0;
        list-style: none;
      }
      li {
        display: grid;
        grid-template-columns: 1fr auto;
        gap: 2px 18px;
        padding: 10px 0;
        border-top: 1px solid var(--line);
      }
      .do {
        display: flex;
        gap: 4px 14px;
        align-items: baseline;
      }
      .words {
        max-width: 52em;
        overflow-wrap: anywhere;
        white-space: pre-line;
      }
      summary {
        min-height: 44px;
        padding: 10px 0;
        cursor: pointer;
      }
      @media (max-width: 620px) {
        li {
          grid-template-columns: 1fr;
        }
      }
    `,
  ];

  override render() {
    const begun = this.begun.filter(({ draft }) => draft.of !== 'list' && !this.#isGiven(draft));
    if (begun.length === 0 && this.given.length === 0) return nothing;
    const older = this.given.slice(NEWEST);
    return html`<section aria-labelledby="written">
      <h2 id="written">Written${this.whose === '' ? nothing : ` for ${this.whose}`}</h2>
      ${
        begun.length === 0
          ? nothing
          : html`<ul aria-label="Begun">
              ${begun.map((one) => this.#begun(one))}
            </ul>`
      }
      ${
        this.given.length === 0
          ? nothing
          : html`<ul aria-label="Given">
              ${this.given.slice(0, NEWEST).map(givenLine)}
            </ul>`
      }
      ${
        older.length === 0
          ? nothing
          : html`<details>
              <summary>Given before: ${older.length}</summary>
              <ul aria-label="Given before">
                ${older.map(givenLine)}
              </ul>
            </details>`
      }
    </section>`;
  }

  /** A note stays open to changes; as long as none is made it is given. */
  #isGiven(draft: Draft): boolean {
    if (draft.of === 'week sheet') return false;
    return this.given.some(({ words, student, target }) =>
      draft.of === 'note'
        ? words === draft.words && target === draft.target && student === draft.student
        : words === draft.words && words !== '',
    );
  }

  #begun(begun: Begun) {
    const { title, words, goOn } = begunOf(begun);
    return html`<li>
      <div>
        <p><strong>${title}</strong> · begun</p>
        ${words === '' ? nothing : html`<p class="words">${words}</p>`}
      </div>
      <div class="do">
        <button
          class="plain"
          aria-label="Go on with it: ${title}"
          @click=${() => goOn.forEach((one) => fire(this, one))}
        >
          Go on
        </button>
        <button
          class="plain quiet"
          aria-label="Throw away: ${title}"
          @click=${() => fire(this, { kind: 'drop draft', begun })}
        >
          Throw away
        </button>
      </div>
    </li>`;
  }
}

interface BegunLine {
  readonly title: string;
  readonly words: string;
  /** What opens it again. */
  readonly goOn: readonly Action[];
}

function begunOf({ draft, playerId }: Begun): BegunLine {
  switch (draft.of) {
    case 'note': {
      const { takeId, title, date, words } = draft;
      return { title: `Note, ${title}, ${date}`, words, goOn: [{ kind: 'go on with note', takeId }] };
    }
    case 'week sheet': {
      const { sheet } = draft;
      const title = `Week sheet, ${sheet.phrase.title}`;
      return { title, words: sheet.words, goOn: [{ kind: 'edit sheet', sheet, playerId }] };
    }
    case 'term report':
      return {
        title: `Term report, ${draft.fromDay} to ${draft.toDay}`,
        words: draft.words,
        goOn: [{ kind: 'go', screen: 'history' }, { kind: 'write term' }],
      };
    case 'list':
      return {
        title: 'A line of the week’s list',
        words: draft.words,
        goOn: [{ kind: 'go', screen: 'today' }],
      };
  }
}

const NAMES: Readonly<Record<Given['what'], string>> = {
  note: 'Note',
  'week sheet': 'Week sheet',
  'term report': 'Term report',
};
const WAYS: Readonly<Record<Given['as'], string>> = {
  page: 'as a page',
  Markdown: 'as Markdown',
  file: 'as a file',
  print: 'printed',
};

function givenLine({ at, what, as, student, title, words, target }: Given) {
  return html`<li>
    <div>
      <p>
        ${NAMES[what]}, ${title}
        <span class="quiet small"
          >· ${dayAndTime(at)}, ${WAYS[as]}${student === '' ? nothing : `, for ${student}`}</span
        >
      </p>
      ${words === '' ? nothing : html`<p class="words">${words}</p>`}
      ${target === '' ? nothing : html`<p class="words quiet">${target}</p>`}
    </div>
  </li>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-written-papers': WrittenPapers;
  }
}
