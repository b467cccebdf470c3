import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { accentHeightLimit, softHeightLimit } from '../../grading/evidence/heights';
import type { AskedHeight } from '../../midi/learning/heights';
import { heightNames, type Heights } from '../../sessions/learned';
import type { Rig } from '../../sessions/types';
import type { Hand } from '../../stroke';
import { levelDb } from '../../units';
import type { RigTask } from '../../state/rig/state';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import { fixed } from '../shared/numbers';
import { rigStyles } from './rig-styles';

/** Softest level that has a place in the picture, dB re velocity 127: velocity 7 by the level law. */
const LEAST_DB = -50;

interface Row {
  readonly label: string;
  readonly heights: Heights | null;
  /** Levels of strokes that were just struck for it, with the height they were asked at. */
  readonly struck: readonly number[];
}

/**
 * The player's own low, half and full strokes of each hand on each surface, in words and on a line, with the bands in which
 * soft strokes and accents should land.
 * @fires action begin step {task} heights are to be shown
 */
@customElement('evenhand-rig-heights')
export class RigHeights extends LitElement {
  @property({ attribute: false }) rig: Rig | null = null;
  @property({ attribute: false }) task: RigTask = { kind: 'rest' };
  /** What is wrong with them, and what to do about it. */
  @property({ attribute: false }) advice: readonly string[] = [];

  static override styles = [
    look,
    rigStyles,
    css`
      .line {
        position: relative;
        height: 30px;
        border-bottom: 1px solid var(--line);
      }
      .band {
        position: absolute;
        inset: 4px auto 0;
        background: var(--band);
      }
      .mark {
        position: absolute;
        bottom: 0;
        width: 2px;
        height: 26px;
        margin-left: -1px;
        background: var(--ink);
      }
      .stroke {
        position: absolute;
        bottom: 3px;
        width: 5px;
        height: 14px;
        margin-left: -2.5px;
        border-radius: 2.5px;
        background: var(--ink);
        opacity: 0.55;
      }
      td.picture {
        width: 46%;
        min-width: 220px;
      }
      table + p {
        margin-top: 8px;
      }
      @media (max-width: 560px) {
        .stacked td.height {
          display: inline-block;
          margin-right: 14px;
          white-space: nowrap;
        }
        .stacked td.picture {
          width: auto;
          min-width: 0;
        }
      }
    `,
  ];

  override render() {
    const rows = rowsOf(this.rig, this.task);
    return html`<section aria-label="Heights">
      <h2>Heights</h2>
      ${
        rows.length === 0
          ? html`<p class="words quiet">
              Not shown yet: low, half and full are drawn and judged at common levels until the rig knows
              yours.
            </p>`
          : html`<div class="scroll">
              <table class="stacked">
                <thead>
                  <tr>
                    <th>Hand, surface</th>
                    <th>Low</th>
                    <th>Half</th>
                    <th>Full</th>
                    <th class="picture">On a line</th>
                  </tr>
                </thead>
                <tbody>
                  ${rows.map(rowPicture)}
                </tbody>
              </table>
              <p class="small quiet">
                Softer to the left: the line runs from ${fixed(LEAST_DB, 0)} to 0 dB, which is velocity 127.
                Shaded: where soft strokes hold, and where accents do.
              </p>
            </div>`
      }
      ${this.advice.map((line) => html`<p class="words">${line}</p>`)}
      ${
        this.rig === null
          ? nothing
          : html`<div class="row">
              <button @click=${() => fire(this, { kind: 'begin step', task: 'heights' })}>
                ${rows.length === 0 ? 'Show low, half and full' : 'Show them again'}
              </button>
            </div>`
      }
    </section>`;
  }
}

function rowPicture({ label, heights, struck }: Row) {
  const cell = (name: 'low' | 'half' | 'full') =>
    html`<td class="height" data-column=${name}>
      ${heights === null ? '–' : html`${fixed(heights[name].db, 1)} dB`}
    </td>`;
  const at = (db: number): number => Math.min(100, Math.max(0, (100 * (db - LEAST_DB)) / -LEAST_DB));
  const band = (fromDb: number, toDb: number) =>
    html`<span class="band" style="left:${at(fromDb)}%;width:${at(toDb) - at(fromDb)}%"></span>`;
  const lines =
    heights === null ? null : { low: heights.low.db, half: heights.half.db, full: heights.full.db };
  return html`<tr>
    <th scope="row">${label}</th>
    ${heightNames.map(cell)}
    <td class="picture">
      <div class="line" aria-hidden="true">
        ${
          lines === null
            ? nothing
            : html`${band(LEAST_DB, softHeightLimit(lines).holds)} ${band(accentHeightLimit(lines).holds, 0)}
              ${heightNames.map((name) => html`<span class="mark" style="left:${at(lines[name])}%"></span>`)}`
        }
        ${struck.map((db) => html`<span class="stroke" style="left:${at(db)}%"></span>`)}
      </div>
    </td>
  </tr>`;
}

function rowsOf(rig: Rig | null, task: RigTask): readonly Row[] {
  const struckOf = (surface: string, hand: Hand): readonly number[] => {
    if (task.kind !== 'heights') return [];
    const { asked, given } = task.state;
    return given.flatMap((velocities, index) => {
      const one: AskedHeight = asked[index];
      return one.surface === surface && one.hand === hand
        ? velocities.map((velocity) => levelDb(velocity))
        : [];
    });
  };
  return (rig?.surfaces ?? []).flatMap(({ id, name, heights }) =>
    (['R', 'L'] as const).flatMap((hand): readonly Row[] => {
      const known = heights?.[hand] ?? null;
      const struck = struckOf(id, hand);
      return known === null && struck.length === 0
        ? []
        : [{ label: `${hand}, ${name}`, heights: known, struck }];
    }),
  );
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-rig-heights': RigHeights;
  }
}
