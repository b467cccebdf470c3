import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { unsafeSVG } from 'lit/directives/unsafe-svg.js';
import type { Strip } from '../../sessions/paper/strip/strip';
import { stripLabel } from '../../sessions/paper/strip/strip-words';
import { stripSvg } from '../../sessions/paper/strip/strip-svg';
import { xmlOf } from '../../sessions/xml';
import { look } from '../shared/look';

/**
 * One strip a variation, all under one count: which variation, which hand, which stroke, and by how much, before a word
 * is read. Drawn anew when its space changes.
 */
@customElement('evenhand-strips')
export class Strips extends LitElement {
  @property({ attribute: false }) strips: readonly Strip[] = [];
  @state() private width = 0;

  static override styles = [
    look,
    css`
      :host {
        display: block;
      }
      svg {
        display: block;
        max-width: 100%;
      }
      .key {
        display: flex;
        justify-content: space-between;
        margin: 0 0 2px;
      }
    `,
  ];

  readonly #sizes = new ResizeObserver(([{ contentRect }]) => {
    this.width = Math.floor(contentRect.width);
  });

  override connectedCallback(): void {
    super.connectedCallback();
    this.#sizes.observe(this);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#sizes.disconnect();
  }

  override render() {
    const { strips, width } = this;
    if (width === 0 || strips.length === 0) return nothing;
    const plot = strips.length > 4 ? 58 : 74;
    return html`${strips.map((strip, index) => {
      const letters = index === strips.length - 1 || handsOf(strip) !== handsOf(strips[index + 1]);
      const picture = stripSvg(strip, { width, plot, letters, words: true }, stripLabel(strip));
      return unsafeSVG(xmlOf(picture));
    })}`;
  }
}

const handsOf = ({ slots }: Strip): string => slots.map(({ slot }) => `${slot.partial}${slot.hand}`).join();

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-strips': Strips;
  }
}
