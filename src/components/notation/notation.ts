import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { createRef, ref } from 'lit/directives/ref.js';
import { InputError } from '../../errors';
import type { Phrase } from '../../exercises/types';
import { look } from '../shared/look';
import { notationPlan, type PlannedMeasure } from './plan';
import { notationStyles } from './styles';
import { notationWords } from './words';

/** Which bars of the cycle are drawn: all of them, or `count` from bar `from` (from 0). */
type BarsShown = 'all' | { readonly from: number; readonly count: number };

/**
 * A phrase in engraved percussion notation, as wide as its box, in the ink of the page; the same in words for screen
 * readers. The engraver is loaded with the first one. A phrase that can't be engraved says why.
 * @slot what to show instead where the phrase can't be engraved
 * @fires engraved when it has been drawn anew
 */
@customElement('evenhand-notation')
export class Notation extends LitElement {
  @property({ attribute: false }) phrase: Phrase | null = null;
  @property({ attribute: false }) bars: BarsShown = 'all';

  /** Size of the music: 1 for the screen, less for a page with much on it. */
  @property({ type: Number }) size = 1;

  @state() private trouble = '';

  static override styles = [look, notationStyles];

  readonly #box = createRef<HTMLDivElement>();
  readonly #resized = new ResizeObserver(() => this.#drawOrSay());
  #plan: readonly PlannedMeasure[] = [];
  #drawnFor: { readonly plan: readonly PlannedMeasure[]; readonly widthPx: number } | null = null;

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#resized.disconnect();
  }

  override connectedCallback(): void {
    super.connectedCallback();
    if (this.#box.value !== undefined) this.#resized.observe(this.#box.value);
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('phrase') && !changed.has('bars')) return;
    try {
      this.#plan = shown(this.phrase === null ? [] : notationPlan(this.phrase), this.bars);
      this.trouble = '';
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      this.#plan = [];
      this.trouble = error.message;
    }
  }

  override render() {
    return html`
      <p class="visually-hidden">${notationWords(this.#plan)}</p>
      <div class="engraving" ${ref(this.#box)}></div>
      ${
        this.trouble === ''
          ? nothing
          : html`<p class="trouble">No notation: ${this.trouble}</p>
              <slot></slot>`
      }
    `;
  }

  protected override firstUpdated(): void {
    if (this.#box.value !== undefined) this.#resized.observe(this.#box.value);
  }

  protected override updated(): void {
    this.#drawOrSay();
  }

  /** Whatever the engraver stumbles over (or that it can't be had) is said; the phrase itself is none the worse. */
  #drawOrSay(): void {
    this.#draw().catch((error: unknown) => {
      this.#drawnFor = null;
      this.#box.value?.replaceChildren();
      this.trouble = `the engraver gave up (${error instanceof Error ? error.message : String(error)})`;
    });
  }

  async #draw(): Promise<void> {
    const { engrave, fontReady } = await import('./engraver');
    await fontReady();
    const box = this.#box.value;
    const plan = this.#plan;
    const widthPx = Math.floor(box?.clientWidth ?? 0);
    if (box === undefined || widthPx === 0 || !this.isConnected || this.trouble !== '') return;
    if (this.#drawnFor?.plan === plan && this.#drawnFor.widthPx === widthPx) return;
    this.#drawnFor = { plan, widthPx };
    const repeated = (this.phrase?.cycles ?? 1) > 1 && this.bars === 'all';
    engrave(box, plan, { widthPx, size: this.size, repeated });
    this.dispatchEvent(new CustomEvent('engraved'));
  }
}

function shown(plan: readonly PlannedMeasure[], bars: BarsShown): readonly PlannedMeasure[] {
  return bars === 'all' ? plan : plan.slice(bars.from, bars.from + bars.count);
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-notation': Notation;
  }
}
