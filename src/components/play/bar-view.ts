import { css, html, LitElement, nothing, svg, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { guard } from 'lit/directives/guard.js';
import type { FootSlot, GridBar, Slot } from '../../exercises/types';
import type { LiveState } from '../../take/types';
import { settingsOf, type Settings } from '../../settings';
import { axisY, linesOf, type HeightLines } from '../../sessions/paper/strip/axis';
import { columnsOf, spokenSticking, type Column } from '../../sessions/paper/strip/columns';
import { liveBandContext } from '../../take/live/live-bands';
import type { BandContext } from '../../grading/facts/level-bands';
import { barMarks, type BandMark, type BarMarks, type BarScene } from './bar-marks';
import { look } from '../shared/look';
import { mirroredMarks, mirroredY } from '../far-view/mirrored-marks';
import { barRoleStyles, dynRow, hasDyn, isPlayed, roleCall, roleSpoken, roleNext } from './bar-roles';
import { percent } from '../shared/numbers';
import './stroke-layer';
import { stickingRows, stickingStyles } from '../shared/sticking-rows';

/**
 * The bar view: one bar that stays still, each slot with the band its stroke should land in, each stroke a short bar at
 * its height (right filled, left open), the last eight passes fainter, early left and late right of the slot's middle.
 * Under it the sticking, the count, the beat that is on, and the next bar's sticking in quiet ink.
 * It draws whenever a property changes; the play screen gives it at most one change a frame.
 */
@customElement('evenhand-bar-view')
export class BarView extends LitElement {
  /** Bars and slots of one cycle; the slots of bars that aren't played are only shown. */
  @property({ attribute: false }) bars: readonly GridBar[] = [];
  @property({ attribute: false }) slots: readonly Slot[] = [];
  /** What the feet do, cycle by cycle until it comes round again. */
  @property({ attribute: false }) feet: readonly (readonly FootSlot[])[] = [];
  @property({ attribute: false }) live: LiveState | null = null;
  @property({ attribute: false }) settings: Settings = settingsOf('working');
  /** The rig's own heights; null where it has learned none. */
  @property({ attribute: false }) heights: HeightLines | null = null;
  /** Bar of the cycle that is shown, and the cycle that is on. */
  @property({ type: Number, attribute: 'bar' }) barInCycle = 0;
  @property({ type: Number }) cycle = 0;
  /** The beat that is on, from 0; null where none is. */
  @property({ attribute: false }) beat: number | null = null;
  /** Early and late shown left and right of the slot's middle. */
  @property({ type: Boolean, attribute: 'show-timing' }) showTiming = true;
  /** The two hands mirrored about a line: right upwards, left downwards. */
  @property({ type: Boolean }) mirrored = false;

  static override styles = [
    look,
    stickingStyles,
    barRoleStyles,
    css`
      :host {
        --axis: 56px;
        --plot: clamp(200px, 37vh, 430px);
      }
      .plot,
      .under,
      .next {
        position: relative;
        margin-left: var(--axis);
      }
      .plot {
        height: var(--plot);
      }
      .plot svg {
        contain: layout style;
        position: absolute;
        inset: 0;
        width: 100%;
        height: 100%;
        overflow: visible;
      }
      .height {
        position: absolute;
        right: 100%;
        margin-right: 10px;
        transform: translateY(50%);
        color: var(--quiet);
        font-size: 16px;
        line-height: 1;
      }
      .rule {
        stroke: var(--line);
        stroke-width: 1;
      }
      .band {
        fill: var(--band);
      }
      .middle {
        stroke: var(--quiet);
        stroke-width: 1;
        opacity: 0.5;
      }
      .hatch {
        stroke: var(--ink);
        stroke-width: 2;
      }
      .edge {
        fill: none;
        stroke: var(--ink);
        stroke-width: 1.5;
      }
      .edge.soft {
        stroke-dasharray: 2 4;
      }
      .line {
        position: absolute;
        bottom: -3px;
        height: 5px;
        background: var(--ink);
        transition: transform 70ms ease-out;
        will-change: transform;
      }
      .line.first {
        transition: none;
      }
      @media (prefers-reduced-motion: reduce) {
        .line {
          transition: none;
        }
      }
      :host([far]) {
        --axis: 0px;
      }
      :host([far]) :is(.next, .height, .counts) {
        display: none;
      }
      .next {
        height: 34px;
        margin-top: 16px;
        color: var(--quiet);
        font-size: 24px;
        line-height: 34px;
      }
      .next span {
        position: absolute;
        text-align: center;
      }
      .next .word {
        right: 100%;
        margin-right: 10px;
        font-size: 16px;
      }
      .next .accent {
        font-weight: 800;
      }
    `,
  ];

  override render() {
    const bar = this.bars[this.barInCycle];
    if (bar === undefined) return html`<div class="plot"></div>`;
    const feet = this.feet[this.cycle % this.feet.length];
    const columns = columnsOf(bar, this.slots, feet);
    const next = this.bars[(this.barInCycle + 1) % this.bars.length];
    const lines = this.heights ?? linesOf(this.settings);
    return html`
      <p class="visually-hidden">${bar.variation}: ${spokenSticking(columns)}</p>
      ${roleSpoken(bar, this.bars)}
      <div
        class="plot ${hasDyn(this.bars) ? 'with-dyn' : ''} ${isPlayed(bar) ? '' : 'waits'}"
        aria-hidden="true"
      >
        ${this.#plot(bar, isPlayed(bar) ? columns : [], lines)} ${heightLabels(lines, this.mirrored)}
        ${dynRow(bar)} ${roleCall(bar)}
      </div>
      <div class="under ${isPlayed(bar) ? '' : 'not-played'}">
        ${guard([bar, this.slots, feet], () => stickingRows(columns))} ${this.#beatLine(bar)}
      </div>
      <div class="next" aria-hidden="true">
        ${guard([next, this.slots, bar], () => nextRow(roleNext(next, bar), columnsOf(next, this.slots)))}
      </div>
    `;
  }

  #plot(bar: GridBar, columns: readonly Column[], lines: HeightLines): TemplateResult {
    const scene: BarScene = {
      columns,
      barInCycle: bar.barInCycle,
      cycle: this.cycle,
      lines,
      bands: this.#bandsOf(bar),
      showTiming: this.showTiming,
    };
    const upright = barMarks(scene, this.live);
    const marks = this.mirrored ? mirroredMarks(upright, columns) : upright;
    const ground = [bar, lines.low, lines.half, lines.full, scene.bands, this.mirrored, emptySlots(marks)];
    return html`${guard(ground, () => groundPicture(bar, marks, lines, this.mirrored))}
      <evenhand-stroke-layer .marks=${marks}></evenhand-stroke-layer>`;
  }

  /** Bands move with the player's own soft strokes, once a bar: a band that moves under a stroke can't be read. */
  #bandsOf(bar: GridBar): BandContext {
    const of = [bar, this.cycle, this.slots, this.settings, this.heights];
    if (this.#bands === null || of.some((one, at) => one !== this.#bandsFor[at])) {
      this.#bandsFor = of;
      this.#bands = liveBandContext(this.live, this.slots, this.settings, this.heights ?? undefined);
    }
    return this.#bands;
  }
  #bands: BandContext | null = null;
  #bandsFor: readonly unknown[] = [];

  #beatLine(bar: GridBar) {
    if (this.beat === null) return nothing;
    const beat = this.beat % bar.beats;
    return html`<div
      class="line ${beat === 0 ? 'first' : ''}"
      style="left:${percent(LINE_INSET / bar.beats)};width:${percent(LINE_SHARE / bar.beats)};transform:translateX(${percent(beat / LINE_SHARE)})"
    ></div>`;
  }
}

/** The line under a beat: where it begins and how wide it is, in beats. It moves by transform, so that nothing is laid out anew. */
const LINE_INSET = 0.02;
const LINE_SHARE = 0.96;

function nextRow(word: string, columns: readonly Column[]): TemplateResult {
  return html`<span class="word">${word}</span>${columns.map(({ x, width, slots }) =>
      slots.length === 0
        ? nothing
        : html`<span
            class=${slots.some(({ kind }) => kind === 'accent') ? 'accent' : ''}
            style="left:${percent(x)};width:${percent(width)}"
            >${slots.map(({ hand }) => hand).join('')}</span
          >`,
    )}`;
}

/** Which slots nothing answered: the ground under the strokes changes with them, and with nothing else. */
function emptySlots(marks: BarMarks): string {
  return marks.bands.map(({ empty }) => empty ?? '').join();
}

/** Bands, heights and beats: what stays while strokes come. */
function groundPicture(
  bar: GridBar,
  marks: BarMarks,
  lines: HeightLines,
  isMirrored: boolean,
): TemplateResult {
  return html`<svg>
    <defs>
      <pattern id="hatch" width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <line class="hatch" x1="0" y1="0" x2="0" y2="9" />
      </pattern>
    </defs>
    ${marks.bands.map(bandPicture)} ${heightsOf(lines, isMirrored).map(({ y }) => rule(y))}
    ${isMirrored ? rule(0.5) : nothing}
    ${bar.beatsMs.map((_, beat) => (beat === 0 ? nothing : beatRule(beat / bar.beats)))}
  </svg>`;
}

/** A height on the page: fractions go up, pixels go down. */
const down = (y: number): string => percent(1 - y);

/** The heights by name; both hands' where they are mirrored. */
function heightsOf(lines: HeightLines, isMirrored: boolean): { readonly name: string; readonly y: number }[] {
  const up = (['full', 'half', 'low'] as const).map((name) => ({ name, y: axisY(lines[name], lines) }));
  if (!isMirrored) return up;
  const hands = ['R', 'L'] as const;
  return hands.flatMap((hand) => up.map(({ name, y }) => ({ name, y: mirroredY(y, hand) })));
}

function heightLabels(lines: HeightLines, isMirrored: boolean): TemplateResult[] {
  return heightsOf(lines, isMirrored).map(
    ({ name, y }) => html`<span class="height" style="bottom:${percent(y)}">${name}</span>`,
  );
}

const rule = (y: number) => svg`<line class="rule" x1="0" x2="100%" y1=${down(y)} y2=${down(y)} />`;

const beatRule = (x: number) => svg`<line class="rule" x1=${percent(x)} x2=${percent(x)} y1="0" y2="100%" />`;

function bandPicture({ x, width, fromY, toY, empty }: BandMark) {
  const place = { x: percent(x), y: down(toY), width: percent(width), height: percent(toY - fromY) };
  const middle = percent(x + width / 2);
  return svg`
    <rect class="band" x=${place.x} y=${place.y} width=${place.width} height=${place.height} />
    <line class="middle" x1=${middle} x2=${middle} y1=${down(fromY)} y2=${down(fromY + 0.022)} />
    ${
      empty === null
        ? nothing
        : svg`<rect class="edge ${empty === 'missed' ? '' : 'soft'}"
            x=${place.x} y=${place.y} width=${place.width} height=${place.height}
            style=${empty === 'missed' ? 'fill:url(#hatch)' : ''} />`
    }`;
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-bar-view': BarView;
  }
}
