import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { SurfaceEdit } from '../../midi/learning/edit-surfaces';
import { gmPercussionName } from '../../midi/learning/gm-percussion';
import type { Rig, Surface } from '../../sessions/types';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import { rigStyles } from './rig-styles';
import { notesWords } from './rig-words';

/**
 * The surfaces as a table: name, notes, hand or foot, and what else can be done with each.
 * @fires action edit surfaces, start surface, begin step: a surface is renamed, given to a hand or foot, merged, split, removed, made the start surface, or
 *   is to show its heights
 */
@customElement('evenhand-rig-surfaces')
export class RigSurfaces extends LitElement {
  @property({ attribute: false }) rig: Rig | null = null;
  /** Id of the surface struck last. */
  @property({ attribute: false }) newest: string | null = null;
  /** What is chosen in a list and not done yet: by keys a list passes over what lies between. */
  @state() private picked: { readonly list: string; readonly value: string } | null = null;

  static override styles = [
    look,
    rigStyles,
    css`
      tr.newest th,
      tr.newest td {
        border-bottom: 2px solid var(--ink);
      }
      .acts {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 12px;
      }
      .choice {
        display: inline-flex;
        gap: 6px;
      }
    `,
  ];

  override render() {
    const surfaces = this.rig?.surfaces ?? [];
    return html`<section aria-label="Surfaces">
      <h2>Surfaces</h2>
      ${
        surfaces.length === 0
          ? html`<p class="quiet">None yet: strike one.</p>`
          : html`<div class="scroll">
              <table class="stacked">
                <thead>
                  <tr>
                    <th>Name</th>
                    <th>Sends</th>
                    <th>Played by</th>
                    <th>More</th>
                  </tr>
                </thead>
                <tbody>
                  ${surfaces.map((surface) => this.#row(surface, surfaces))}
                </tbody>
              </table>
            </div>`
      }
      <div class="row">
        ${
          surfaces.length === 0
            ? nothing
            : html`<button @click=${() => fire(this, { kind: 'begin step', task: 'surfaces' })}>
                  Strike more surfaces
                </button>
                <button @click=${() => fire(this, { kind: 'begin step', task: 'hands' })}>
                  Show the hands
                </button>`
        }
      </div>
    </section>`;
  }

  // eslint-disable-next-line max-lines-per-function -- one row of the table: its fields side by side
  #row(surface: Surface, all: readonly Surface[]) {
    const { id, name, port, channel, notes, hand, foot } = surface;
    const played = foot ?? hand ?? 'either';
    const others = all.filter((one) => one.id !== id && one.port === port && one.channel === channel);
    const isStart = this.rig?.start?.surface === id;
    return html`<tr class=${this.newest === id ? 'newest' : ''}>
      <td>
        <input
          class="name"
          aria-label="Name of ${name}"
          maxlength="40"
          .value=${name}
          @change=${(event: Event) => {
            if (event.target instanceof HTMLInputElement)
              this.#edit({ kind: 'rename', id, name: event.target.value });
          }}
        />
      </td>
      <td>${notesWords(notes)}<br /><span class="small quiet">${port}, channel ${channel}</span></td>
      <td>
        <select aria-label="Who plays ${name}" @change=${(event: Event) => this.#by(id, event)}>
          ${(
            [
              ['either', 'either hand'],
              ['R', 'right hand'],
              ['L', 'left hand'],
              ['K', 'bass drum foot'],
              ['H', 'hi-hat foot'],
            ] as const
          ).map(
            ([value, words]) => html`<option value=${value} ?selected=${value === played}>${words}</option>`,
          )}
        </select>
      </td>
      <td>
        <div class="acts">
          ${
            foot === undefined
              ? html`<button
                  class="plain"
                  aria-label="Show heights: ${name}"
                  @click=${() => fire(this, { kind: 'begin step', task: 'heights', surface: id })}
                >
                  Show heights
                </button>`
              : nothing
          }
          <button
            class="plain"
            aria-pressed=${isStart ? 'true' : 'false'}
            aria-label="${isStart ? 'Starts and stops: undo' : 'Start and stop with it'}: ${name}"
            @click=${() => fire(this, { kind: 'start surface', surface: isStart ? null : id })}
          >
            ${isStart ? 'Starts and stops: undo' : 'Start and stop with it'}
          </button>
          ${
            others.length === 0
              ? nothing
              : this.#choice(`Make ${name} one with another`, 'One with…', 'Make one', {
                  choices: others.map((one) => [one.id, one.name]),
                  then: (other) => ({ kind: 'merge', id, other }),
                })
          }
          ${
            notes.length < 2
              ? nothing
              : this.#choice(`Split a note off ${name}`, 'Split off…', 'Split off', {
                  choices: notes.map((note) => [
                    String(note),
                    `${note}, ${gmPercussionName(note) ?? 'unnamed'}`,
                  ]),
                  then: (note) => ({ kind: 'split', id, notes: [Number(note)] }),
                })
          }
          <button
            class="plain quiet"
            aria-label="Remove ${name}"
            @click=${() => this.#edit({ kind: 'remove', id })}
          >
            Remove
          </button>
        </div>
      </td>
    </tr>`;
  }

  #edit(edit: SurfaceEdit): void {
    fire(this, { kind: 'edit surfaces', edit });
  }

  #by(id: string, event: Event): void {
    if (!(event.target instanceof HTMLSelectElement)) return;
    const by = event.target.value;
    if (by === 'K' || by === 'H') this.#edit({ kind: 'foot', id, foot: by });
    else {
      // A foot's surface is nobody's hand's: it is taken from the foot first.
      this.#edit({ kind: 'foot', id, foot: null });
      this.#edit({ kind: 'hand', id, hand: by === 'R' || by === 'L' ? by : null });
    }
  }

  /** A list to choose from, and a button that does it. */
  #choice(list: string, asks: string, does: string, { choices, then }: Choice) {
    const value = this.picked?.list === list ? this.picked.value : '';
    return html`<span class="choice">
      <select
        aria-label=${list}
        .value=${value}
        @change=${(event: Event) => {
          if (event.target instanceof HTMLSelectElement) this.picked = { list, value: event.target.value };
        }}
      >
        <option value="">${asks}</option>
        ${choices.map(([id, words]) => html`<option value=${id} ?selected=${id === value}>${words}</option>`)}
      </select>
      ${
        value === ''
          ? nothing
          : html`<button
              @click=${() => {
                this.picked = null;
                this.#edit(then(value));
              }}
            >
              ${does}
            </button>`
      }
    </span>`;
  }
}

interface Choice {
  readonly choices: readonly (readonly [value: string, words: string])[];
  readonly then: (value: string) => SurfaceEdit;
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-rig-surfaces': RigSurfaces;
  }
}
