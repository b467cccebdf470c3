import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { SurfaceEdit } from '../midi/learning/edit-surfaces';
import { gmPercussionName } from '../midi/learning/gm-percussion';
import type { Rig, Surface } from '../sessions/types';
import { tell } from './events';
import { look } from './look';
import { rigStyles } from './rig-styles';
import { notesWords } from './rig-words';

/**
 * The surfaces as a table: name, notes, hand or foot, and what else can be done with each.
 * @fires rigging {event} a surface is renamed, given to a hand or foot, merged, split, removed, made the start surface, or
 *   is to show its heights
 */
@customElement('evenhand-rig-surfaces')
export class RigSurfaces extends LitElement {
  @property({ attribute: false }) rig: Rig | null = null;
  /** Id of the surface struck last. */
  @property({ attribute: false }) newest: string | null = null;

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
              <table>
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
            : html`<button
                  @click=${() => tell(this, 'rigging', { event: { kind: 'begin', task: 'surfaces' } })}
                >
                  Strike more surfaces
                </button>
                <button @click=${() => tell(this, 'rigging', { event: { kind: 'begin', task: 'hands' } })}>
                  Show the hands
                </button>`
        }
      </div>
    </section>`;
  }

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
                  @click=${() => tell(this, 'rigging', { event: { kind: 'begin', task: 'heights', surface: id } })}
                >
                  Heights
                </button>`
              : nothing
          }
          <button
            class="plain"
            aria-pressed=${isStart ? 'true' : 'false'}
            @click=${() =>
              tell(this, 'rigging', { event: { kind: 'start surface', surface: isStart ? null : id } })}
          >
            ${isStart ? 'Starts and stops: undo' : 'Start and stop with it'}
          </button>
          ${
            others.length === 0
              ? nothing
              : html`<select
                  aria-label="Make ${name} one with another"
                  @change=${(event: Event) => this.#merge(id, event)}
                >
                  <option value="" selected>One with…</option>
                  ${others.map((one) => html`<option value=${one.id}>${one.name}</option>`)}
                </select>`
          }
          ${
            notes.length < 2
              ? nothing
              : html`<select
                  aria-label="Split a note off ${name}"
                  @change=${(event: Event) => this.#split(id, event)}
                >
                  <option value="" selected>Split off…</option>
                  ${notes.map(
                    (note) =>
                      html`<option value=${note}>${note}, ${gmPercussionName(note) ?? 'unnamed'}</option>`,
                  )}
                </select>`
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
    tell(this, 'rigging', { event: { kind: 'edit', edit } });
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

  #merge(id: string, event: Event): void {
    if (!(event.target instanceof HTMLSelectElement) || event.target.value === '') return;
    this.#edit({ kind: 'merge', id, other: event.target.value });
    event.target.value = '';
  }

  #split(id: string, event: Event): void {
    if (!(event.target instanceof HTMLSelectElement) || event.target.value === '') return;
    this.#edit({ kind: 'split', id, notes: [Number(event.target.value)] });
    event.target.value = '';
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-rig-surfaces': RigSurfaces;
  }
}
