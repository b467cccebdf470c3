import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { createRef, ref } from 'lit/directives/ref.js';
import { fileName } from '../../sessions/file-name';
import { fire } from '../shared/events';
import { look } from '../shared/look';
import { pictureTable } from './sounded-table';
import type { Inks } from './marks';
import type { Picture } from './picture';
import { pictureCsv } from './rows-csv';

type Drawing = typeof import('./drawing');

/**
 * One picture of a take, or of takes over weeks. Its title says the finding; the same numbers stand in a
 * table, behind a fold or for screen readers, and go out as a PNG or CSV. chart.js is loaded with the first picture.
 * @fires action save file {name, blob}
 */
@customElement('evenhand-picture')
export class PictureElement extends LitElement {
  @property({ attribute: false }) picture: Picture | null = null;
  /** How its files are called, without an ending. */
  @property({ attribute: false }) fileName = 'picture';

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
      .files {
        display: flex;
        gap: 12px;
        font-size: 15px;
      }
      .files button {
        text-align: left;
      }
      summary {
        min-height: 32px;
        cursor: pointer;
      }
      caption {
        text-align: left;
        padding-bottom: 6px;
      }
      details {
        overflow-x: auto;
      }
      details th,
      details td {
        padding: 4px 12px 4px 0;
        font-weight: 400;
        font-size: 15px;
      }
      @media print {
        .files,
        details {
          display: none;
        }
        /* As wide as A4 and Letter have space for, and drawn anew at that width. */
        .canvas {
          width: 17.5cm;
          max-width: 100%;
        }
        canvas {
          max-width: 100%;
        }
        figure {
          break-inside: avoid;
        }
      }
    `,
  ];

  readonly #canvas = createRef<HTMLCanvasElement>();
  readonly #inksChange = [
    '(prefers-color-scheme: dark)',
    '(prefers-contrast: more)',
    '(forced-colors: active)',
    'print',
  ].map((query) => window.matchMedia(query));
  #drawing: Drawing | null = null;
  #chart: { destroy(): void } | null = null;
  readonly #redraw = (): void => void this.#draw();

  override connectedCallback(): void {
    super.connectedCallback();
    for (const query of this.#inksChange) query.addEventListener('change', this.#redraw);
    if (this.hasUpdated) this.#redraw();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    for (const query of this.#inksChange) query.removeEventListener('change', this.#redraw);
    this.#chart?.destroy();
    this.#chart = null;
  }

  override render() {
    if (this.picture === null) return nothing;
    const { title, of, drawn } = this.picture;
    return html`<figure>
      <figcaption>${title} <span class="quiet">(${of}: ${drawn})</span></figcaption>
      ${
        emptyWords(this.picture) !== ''
          ? html`<p class="quiet">${emptyWords(this.picture)}</p>`
          : html`<div class="canvas" style="height:${heightPx(this.picture)}px">
                <canvas ${ref(this.#canvas)} aria-hidden="true"></canvas>
              </div>
              ${this.#files()}`
      }
      ${
        emptyWords(this.picture) !== ''
          ? nothing
          : this.picture.kind === 'weeks' || this.picture.kind === 'course'
            ? html`<details>
                <summary class="quiet small">The numbers</summary>
                ${pictureTable(this.picture)}
              </details>`
            : html`<div class="visually-hidden">${pictureTable(this.picture)}</div>`
      }
    </figure>`;
  }

  protected override updated(): void {
    void this.#draw();
  }

  #files(): TemplateResult {
    return html`<div class="files">
      <button class="plain quiet" @click=${this.#png}>Save the picture (PNG)</button>
      <button class="plain quiet" @click=${this.#csv}>Save its numbers (CSV)</button>
    </div>`;
  }

  async #draw(): Promise<void> {
    this.#drawing ??= await import('./drawing');
    const canvas = this.#canvas.value;
    this.#chart?.destroy();
    this.#chart = null;
    if (canvas === undefined || this.picture === null || !this.isConnected) return;
    this.#chart = this.#drawing.drawPicture(canvas, this.picture, this.#inks());
  }

  /** The picture on paper with its title over it: a canvas alone would be transparent, and say nothing. */
  readonly #png = (): void => {
    const { picture } = this;
    const source = this.#canvas.value;
    if (picture === null || source === undefined) return;
    const inks = this.#inks();
    const scale = source.width / source.clientWidth;
    const sheet = document.createElement('canvas');
    const context = sheet.getContext('2d');
    if (context === null) return;
    const lines = titleLines(context, `${picture.title} (${picture.of}: ${picture.drawn})`, {
      font: `${17 * scale}px ${inks.face}`,
      widthPx: source.width,
    });
    const margin = 16 * scale;
    const linePx = 24 * scale;
    sheet.width = source.width + 2 * margin;
    sheet.height = source.height + lines.length * linePx + 2 * margin;
    context.fillStyle = inks.paper;
    context.fillRect(0, 0, sheet.width, sheet.height);
    context.fillStyle = inks.ink;
    context.font = `${17 * scale}px ${inks.face}`;
    context.textBaseline = 'top';
    lines.forEach((line, index) => context.fillText(line, margin, margin + index * linePx));
    context.drawImage(source, margin, margin + lines.length * linePx);
    sheet.toBlob((blob) => {
      if (blob !== null)
        fire(this, {
          kind: 'save file',
          name: fileName({ kind: 'picture', about: this.fileName, ending: 'png' }),
          blob,
        });
    }, 'image/png');
  };

  readonly #csv = (): void => {
    if (this.picture === null) return;
    const blob = new Blob([pictureCsv(this.picture)], { type: 'text/csv' });
    fire(this, {
      kind: 'save file',
      name: fileName({ kind: 'picture', about: this.fileName, ending: 'csv' }),
      blob,
    });
  };

  #inks(): Inks {
    const style = getComputedStyle(this);
    const token = (name: string): string => style.getPropertyValue(`--${name}`).trim();
    return {
      paper: token('paper'),
      ink: token('ink'),
      quiet: token('quiet'),
      line: token('line'),
      band: token('band'),
      out: token('out'),
      face: token('face'),
    };
  }
}

const TEMPO_PX = 300;
const WEEKS_PX = 150;
const COURSE_PX = 280;
/** Both hands of a single row need as much. */
const LEAST_PX = 104;

/** What a picture of History that has nothing in it says will stand there; empty where it has something. */
function emptyWords(picture: Picture): string {
  return 'empty' in picture ? picture.empty : '';
}

function heightPx(picture: Picture): number {
  if (picture.kind === 'tempo') return TEMPO_PX;
  if (picture.kind === 'weeks') return WEEKS_PX;
  if (picture.kind === 'course') return COURSE_PX;
  const rowPx = picture.kind === 'ceiling' ? 34 : picture.byPlace ? 25 : 44;
  return Math.max(LEAST_PX, picture.rows.length * rowPx + 36);
}

/** A text in lines that fit. */
function titleLines(
  context: CanvasRenderingContext2D,
  text: string,
  { font, widthPx }: { font: string; widthPx: number },
): readonly string[] {
  context.font = font;
  return text.split(' ').reduce<string[]>((lines, word) => {
    const last = lines.at(-1);
    const longer = `${last ?? ''} ${word}`;
    if (last === undefined || context.measureText(longer).width > widthPx) return [...lines, word];
    return [...lines.slice(0, -1), longer];
  }, []);
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-picture': PictureElement;
  }
}
