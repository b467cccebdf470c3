import { css, html, LitElement } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { BarMarks } from './bar-marks';
import { drawStrokes, type Inks, type DrawingSize } from './stroke-drawing';

const noMarks: BarMarks = { bands: [], strokes: [], graces: [], extras: [] };
/** Schemes under which the tokens of the look change. */
const SCHEMES = ['(prefers-color-scheme: dark)', '(prefers-contrast: more)', '(forced-colors: active)'];

/**
 * The strokes of a bar over whatever stands beneath; it fills its box. It has no words: the bar view has them.
 * Colours and size are read when they change, never for a stroke.
 */
@customElement('evenhand-stroke-layer')
export class StrokeLayer extends LitElement {
  @property({ attribute: false }) marks: BarMarks = noMarks;
  #inks: Inks | null = null;
  #size: DrawingSize = { width: 0, height: 0, scale: 1 };
  readonly #schemes = SCHEMES.map((scheme) => window.matchMedia(scheme));
  readonly #sizes = new ResizeObserver(() => this.#measure());
  readonly #recolour = (): void => {
    this.#inks = null;
    this.#draw();
  };

  static override styles = css`
    :host,
    canvas {
      position: absolute;
      inset: 0;
      display: block;
      width: 100%;
      height: 100%;
      contain: strict;
    }
  `;

  override connectedCallback(): void {
    super.connectedCallback();
    this.#sizes.observe(this);
    for (const scheme of this.#schemes) scheme.addEventListener('change', this.#recolour);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#sizes.disconnect();
    for (const scheme of this.#schemes) scheme.removeEventListener('change', this.#recolour);
  }

  override render() {
    return html`<canvas></canvas>`;
  }

  protected override updated(): void {
    this.#draw();
  }

  #measure(): void {
    const canvas = this.#canvas();
    if (canvas === null) return;
    const { clientWidth: width, clientHeight: height } = this;
    const scale = window.devicePixelRatio;
    this.#size = { width, height, scale };
    canvas.width = Math.round(width * scale);
    canvas.height = Math.round(height * scale);
    this.#draw();
  }

  #canvas(): HTMLCanvasElement | null {
    return this.renderRoot.querySelector('canvas');
  }

  #draw(): void {
    const context = this.#canvas()?.getContext('2d') ?? null;
    if (context === null || this.#size.width === 0) return;
    this.#inks ??= inksOf(this);
    drawStrokes(context, this.#size, this.marks, this.#inks);
  }
}

function inksOf(element: Element): Inks {
  const style = getComputedStyle(element);
  const token = (name: string): string => style.getPropertyValue(name).trim();
  return {
    ink: token('--ink'),
    paper: token('--paper'),
    out: token('--out'),
    faint: Number(token('--faint')),
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-stroke-layer': StrokeLayer;
  }
}
