import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { createRef, ref } from 'lit/directives/ref.js';
import type { ChartInks } from './level-chart-drawing';
import type { ChartPicture, ChartPoint } from './types';
import { look } from './look';
import { fixed, signed } from './numbers';

/**
 * One picture of a report: rows of medians and spreads by hand, right filled and left open. Its title says the finding;
 * the same numbers stand in a table for screen readers. chart.js is loaded with the first picture.
 */
@customElement('evenhand-level-chart')
export class LevelChart extends LitElement {
  @property({ attribute: false }) picture: ChartPicture | null = null;

  static override styles = [
    look,
    css`
      figure {
        margin: 0;
      }
      figcaption {
        margin-bottom: 4px;
        font-size: 17px;
      }
      .canvas {
        position: relative;
      }
    `,
  ];

  readonly #canvas = createRef<HTMLCanvasElement>();
  readonly #dark = window.matchMedia('(prefers-color-scheme: dark)');
  #chart: { destroy(): void } | null = null;
  readonly #redraw = (): void => void this.#draw();

  override connectedCallback(): void {
    super.connectedCallback();
    this.#dark.addEventListener('change', this.#redraw);
    if (this.hasUpdated) this.#redraw();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#dark.removeEventListener('change', this.#redraw);
    this.#chart?.destroy();
    this.#chart = null;
  }

  override render() {
    if (this.picture === null) return nothing;
    const { title, of, unit, rows, byPlace } = this.picture;
    const rowPx = byPlace ? 25 : 44;
    return html`<figure>
      <figcaption>${title} <span class="quiet">(${of}, median and spread, ${unit})</span></figcaption>
      <div class="canvas" style="height:${rows.length * rowPx + 36}px">
        <canvas ${ref(this.#canvas)} aria-hidden="true"></canvas>
      </div>
      <div class="heard">
        <table>
          <caption>
            ${title}
          </caption>
          <thead>
            <tr>
              <th scope="col">strokes</th>
              <th scope="col">right</th>
              <th scope="col">left</th>
            </tr>
          </thead>
          <tbody>
            ${rows.map(
              (row) =>
                html`<tr>
                  <th scope="row">${row.label}</th>
                  <td>${pointWords(row.R, unit)}</td>
                  <td>${pointWords(row.L, unit)}</td>
                </tr>`,
            )}
          </tbody>
        </table>
      </div>
    </figure>`;
  }

  protected override updated(): void {
    void this.#draw();
  }

  async #draw(): Promise<void> {
    const { drawChart } = await import('./level-chart-drawing');
    const canvas = this.#canvas.value;
    this.#chart?.destroy();
    this.#chart = null;
    if (canvas === undefined || this.picture === null || !this.isConnected) return;
    this.#chart = drawChart(canvas, this.picture, this.#inks());
  }

  #inks(): ChartInks {
    const style = getComputedStyle(this);
    const token = (name: string): string => style.getPropertyValue(`--${name}`).trim();
    return {
      paper: token('paper'),
      ink: token('ink'),
      quiet: token('quiet'),
      line: token('line'),
      out: token('out'),
      face: token('face'),
    };
  }
}

function pointWords(point: ChartPoint | null, unit: 'dB' | 'ms'): string {
  if (point === null) return 'none';
  const middle = unit === 'dB' ? fixed(point.median, 1) : signed(point.median, 0);
  return `${middle} ${unit}, spread ${fixed(point.spread, 1)}, from ${point.n} strokes`;
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-level-chart': LevelChart;
  }
}
