import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { phraseCeilingWords } from '../../insight/ceiling/words';
import { feetWords } from '../../grading/feet-words';
import type { Report } from '../../grading/types';
import { firstReviewing, type Reviewing } from '../../state/reviewing';
import { chosenIn, ledReport, nextStep } from '../../state/selectors/review';
import type { UnkeptTake } from '../../state/unkept';
import type { Reviewed } from '../../take/reviewed';
import type { CourseLine } from '../../insight/take-course';
import type { TakeCeilings } from '../../insight/take-ceilings';
import type { Take } from '../../sessions/types';
import { afterPaint } from '../shared/after-paint';
import { brokenBars } from './broken-bars';
import { countWords } from '../shared/count-words';
import { fire } from '../shared/events';
import './compare-takes';
import './guess-first';
import { look } from '../shared/look';
import { marginStyles } from './margin-picture';
import { measuresTable } from './measures-table';
import { picturesOf } from '../pictures/section';
import '../pictures/strips';
import { stripsOf } from '../../sessions/paper/strip/strip';
import { meantSwing } from './meant-swing';
import { nextStepOf } from './next-step';
import { capital, dayAndTime, fixed } from '../shared/numbers';
import { reviewStyles } from './review-styles';
import { chosenFirst, somethingElse } from './something-else';
import { takeHappenings } from './take-happenings';
import type { NumberAsked } from '../../insight/strokes-behind';
import './strokes-behind';
import { blindBarsOf } from '../../insight/telling-apart';
import { giveawayWords, identificationWords } from '../../grading/apart/words';
import './listen-blind';
import type { Neighbours, TakeChoice } from '../shared/types';
import '../shared/unkept-takes';
import { variationsTable } from './variations-table';
import { verdictStyles } from './verdict';
import { count } from '../../words/numbers';
import { measureUnit, strengthWords } from '../../grading/words';

/**
 * Review: the sentence and how sure it is; a row a variation; one picture chosen by the reason; everything else under
 * "All measures"; and the way to other takes.
 * @fires action next step the remedy, the phrase again, or a step of Rig
 * @fires action choose first {choice} what is to lead instead
 * @fires action meant swing the take is to be graded by the swing it was played with
 * @fires action picture, strokes, guess first, listen blind: what is looked at @fires action write note a lesson note is to be written
 * @fires action play take {id} the same phrase at the same tempo @fires action teacher plays {on} the next take is the teacher's
 * @fires action download take {id} @fires action open take {id} another one @fires action go {screen} to all of them
 * @fires action throw away the take just played @fires action set beside {id} another take is set beside it
 * @slot reached what the take came to of its week sheet
 * @slot give who else it may be given to
 */
@customElement('evenhand-review-screen')
export class ReviewScreen extends LitElement {
  /** The open take and its report; null where none is open. */
  @property({ attribute: false }) take: Take | null = null;
  @property({ attribute: false }) report: Report | null = null;
  /** Ceilings of its phrase on its rig; null where there are none to tell. */
  @property({ attribute: false }) ceilings?: () => TakeCeilings | null;
  /** What it tells over its time. */
  @property({ attribute: false }) course?: () => readonly CourseLine[];
  /** Takes of the same phrase that can be set beside it. */
  @property({ attribute: false }) alike: readonly TakeChoice[] = [];
  /** What is looked at of it. */
  @property({ attribute: false }) reviewing: Reviewing = firstReviewing;
  /** The open take is the teacher's. */
  @property({ type: Boolean }) teachers = false;
  /** Whether a teacher may play. */
  @property({ type: Boolean, attribute: 'teacher-may' }) teacherMay = false;
  /** True where a note on the open take is begun. */
  @property({ type: Boolean }) noteBegun = false;
  /** True of the take that ended last. */
  @property({ type: Boolean }) justPlayed = false;
  /** True while something sounds. */
  @property({ type: Boolean }) hearing = false;
  /** The open take, where it could not be kept. */
  @property({ attribute: false }) unkept: UnkeptTake | null = null;
  /** The takes before and after the open one. */
  @property({ attribute: false }) neighbours: Neighbours = { earlier: null, later: null };
  /** Counted up by whoever opens a take: then the focus goes to its sentence. */
  @property({ type: Number }) opened = 0;

  static override styles = [look, verdictStyles, marginStyles, reviewStyles];

  /** The take that is drawn whole. Of another the sentence, what to do and the table are painted first. */
  #whole: Take | null = null;
  /** Of the review before: kept until this one is whole, so that the page under it doesn't jump. */
  #heightPx = 0;

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('take')) this.#heightPx = this.renderRoot.querySelector('article')?.offsetHeight ?? 0;
  }

  protected override updated(): void {
    const { take } = this;
    this.#focusSentence();
    if (take === this.#whole) return;
    afterPaint(() => {
      if (take !== this.take || take === this.#whole) return;
      this.#whole = take;
      this.requestUpdate();
    });
  }

  /** Opening one says so: its sentence comes into view, and is read. */
  #focusSentence(): void {
    const sentence = this.renderRoot.querySelector<HTMLElement>('article h1');
    if (sentence === null || this.opened === openedBefore) return;
    openedBefore = this.opened;
    sentence.focus();
    sentence.scrollIntoView({ block: 'nearest' });
  }

  override render() {
    return html`
      ${
        this.take !== null && this.report !== null
          ? this.reviewing.guess.kind === 'asked'
            ? html`<evenhand-guess-first
                  .variations=${this.report.variations.map(({ name }) => name)}
                ></evenhand-guess-first
                >${this.#unkeptLine()}`
            : this.#review(this.take, this.report)
          : html`<h1>No take is open</h1>
              <p class="quiet">Play one, open one from all takes, or drop a take file on the page.</p>`
      }
      ${this.reviewing.guess.kind === 'asked' ? nothing : this.#others()}
    `;
  }

  #review(take: Take, report: Report) {
    const whole = take.id === this.#whole?.id;
    const lead = chosenIn({ take, report });
    const led = ledReport(take, report);
    return html`
      <article style=${whole ? '' : `min-height:${this.#heightPx}px`}>
        <p class="printed small">${printedHead(take, report)}</p>
        <h1 tabindex="-1">${lead?.sentence ?? report.sentence}</h1>
        ${this.#unkeptLine()} ${lead === undefined ? nothing : chosenFirst(this, report)}
        <p class="quiet">${strengthWords(report, lead)}</p>
        <p class="quiet small">
          ${this.teachers ? 'The teacher’s take: it counts in nobody’s history. ' : nothing}${isUnlabelledModel(take) ? 'Computed by the seeded model player; nobody played it. ' : nothing}${take.notes}
        </p>
        ${this.#guessed()} ${somethingElse(this, report, lead)}
        ${nextStepOf(this, { take, report }, this.reviewing)} ${meantSwing(this, { take, report })}
        <slot name="reached"></slot>
        ${
          report.variations.length === 0
            ? nothing
            : html`<evenhand-strips .strips=${stripsOf(led, take.phrase, namedFigure(led))}></evenhand-strips>
                <div class="wide" tabindex="0" role="group" aria-label="Variations">
                  ${variationsTable(led, this.#ask)}
                </div>`
        }
        ${this.#strokes(report)} ${whole ? this.#rest(take, report) : nothing}
      </article>
    `;
  }

  #unkeptLine() {
    if (this.unkept === null) return nothing;
    return html`<evenhand-unkept-takes brief .takes=${[this.unkept]}></evenhand-unkept-takes>`;
  }

  #rest(take: Take, report: Report) {
    const ceilings = this.ceilings?.() ?? null;
    return html`${this.#course()} ${ceilings === null ? nothing : this.#ceiling(ceilings)}
      ${picturesOf(this, take, ledReport(take, report), this.reviewing, ceilings)}
      ${this.#apart(take, report)} ${this.#beside(take, report)}
      <p class="counts quiet small">${countWords(report)}</p>
      ${report.feet === undefined ? nothing : html`<p class="feet small">${feetWords(report.feet)}</p>`}
      ${takeHappenings(take)} ${report.fits ? this.#bars(take, report) : nothing}
      ${
        report.fits
          ? html`<details>
              <summary>All measures</summary>
              <div class="wide" tabindex="0" role="group" aria-label="All measures">
                ${this.#apartMeasures()} ${measuresTable(report, this.#ask)}
              </div>
            </details>`
          : nothing
      }
      ${this.#files(take, report)}`;
  }

  readonly #ask = (asked: NumberAsked): void => fire(this, { kind: 'strokes', asked });

  #strokes(report: Report) {
    const { strokes } = this.reviewing;
    return strokes === null
      ? html`<p class="quiet small hint">A number, when pressed, shows the strokes it was made from.</p>`
      : html`<evenhand-strokes-behind
          .report=${report}
          .asked=${strokes}
          .hearing=${this.hearing}
        ></evenhand-strokes-behind>`;
  }

  /** Tiring, a tempo up and down again, time without a click. */
  #course() {
    return (this.course?.() ?? []).map(
      ({ of, words }) => html`<p class="course"><strong>${capital(of)}</strong>: <span>${words}</span></p>`,
    );
  }

  /** How fast the phrase is clean, and the way to its picture. */
  #ceiling({ progress, takes }: TakeCeilings) {
    if (progress.ceiling.kind === 'too few bars') return nothing;
    return html`<p class="ceiling">
      <strong>Ceiling</strong>, in bpm: ${phraseCeilingWords(progress)}.
      <span class="quiet">From ${takes === 1 ? 'this take' : `${takes} takes`} on this rig.</span>
      <button class="plain" @click=${() => fire(this, { kind: 'picture', name: 'ceiling' })}>
        Clean bars by tempo
      </button>
    </p>`;
  }

  /** The giveaway in a sentence, and the ear's turn; nothing where no two variations are meant to sound alike. */
  #apart(take: Take, report: Report) {
    const { apart, listening } = this.reviewing;
    if (listening !== null) {
      return html`<evenhand-listen-blind class="apart" .listening=${listening}></evenhand-listen-blind>`;
    }
    const isNone = apart?.giveaway.kind === 'not told' && apart.giveaway.because !== 'too few cycles';
    if (apart === null || isNone) return nothing;
    const bars = blindBarsOf(report, take);
    return html`<p class="apart">
      ${giveawayWords(apart.giveaway)}
      ${
        new Set(bars.map(({ answer }) => answer)).size < 2
          ? nothing
          : html`<button
              class="plain"
              @click=${() => fire(this, { kind: 'listen blind', of: 'variations', seed: crypto.getRandomValues(new Uint32Array(1))[0] })}
            >
              Listen blind
            </button>`
      }
    </p>`;
  }

  #beside(take: Take, report: Report) {
    if (!report.fits) return nothing;
    const { beside, bands } = this.reviewing;
    this.#open = this.#open?.take === take ? this.#open : { take, report };
    return html`<evenhand-beside
      class="apart"
      .open=${this.#open}
      .beside=${beside}
      .choices=${this.alike}
      .bands=${bands}
    ></evenhand-beside>`;
  }
  #open: Reviewed | null = null;

  #apartMeasures() {
    const { apart } = this.reviewing;
    if (apart === null) return nothing;
    return html`<p class="small">
      ${giveawayWords(apart.giveaway)}
      ${apart.identification.kind === 'told' ? identificationWords(apart.identification) : nothing}
    </p>`;
  }

  #guessed() {
    const { guess, guesses } = this.reviewing;
    if (guess.kind !== 'made') return nothing;
    const choice = guess.choice === null ? 'all hold' : guess.choice;
    return html`<p class="guessed">
      ${guess.right ? 'You heard it' : `You said: ${choice}`}. Heard it ${guesses.heard} of ${guesses.of}.
    </p>`;
  }

  #files(take: Take, report: Report) {
    const isNext = nextStep(this.reviewing, { take, report }).kind === 'again';
    const { on, heard, of } = this.reviewing.guesses;
    return html`<div class="actions">
      ${isNext ? nothing : html`<button class="plain" @click=${() => fire(this, { kind: 'play take', id: take.id })}>Play it again</button>`}
      <button class="plain" @click=${() => fire(this, { kind: 'download take', id: take.id })}>
        Download the take
      </button>
      ${
        this.justPlayed
          ? html`<button class="plain" @click=${() => fire(this, { kind: 'throw away' })}>Throw away</button>`
          : nothing
      }
      ${
        this.teachers
          ? nothing
          : html`<button class="plain" @click=${() => fire(this, { kind: 'write note' })}>
              ${this.noteBegun ? 'Go on with the note' : 'Write a note'}
            </button>`
      }
      ${
        this.teacherMay
          ? html`<button
              class="plain"
              title="The next take, of this phrase at this tempo, is the teacher’s"
              @click=${() => this.#teacherPlays(take)}
            >
              I play this one
            </button>`
          : nothing
      }
      <slot name="give"></slot>
      <label
        ><input
          type="checkbox"
          .checked=${on}
          @change=${(event: Event) =>
            fire(this, { kind: 'guess first', on: (event.target as HTMLInputElement).checked })}
        />
        Guess first: ask me which bar was
        weakest${of === 0 ? '' : html` <span class="quiet">(heard it ${heard} of ${of})</span>`}</label
      >
    </div>`;
  }

  /** For the teacher: the same phrase at the same tempo, and the next take is theirs. */
  #teacherPlays({ id }: Take): void {
    fire(this, { kind: 'teacher plays', on: true });
    fire(this, { kind: 'play take', id });
  }

  #bars(take: Take, report: Report) {
    const broken = brokenBars(report, take.phrase.bars.length);
    if (broken.length === 0) return nothing;
    const toPlay = report.bars.filter((bar) => bar.role === undefined);
    const isReason = report.slips.length > 0 || ledReport(take, report).weakest?.measure === 'complete';
    return html`<details ?open=${isReason}>
      <summary>Bars that weren’t clean: ${broken.length} of ${toPlay.length}</summary>
      <table class="all">
        <thead>
          <tr>
            <th scope="col">bar</th>
            <th scope="col">cycle</th>
            <th scope="col">variation</th>
            <th scope="col">what broke it</th>
          </tr>
        </thead>
        <tbody>
          ${broken.map(
            ({ bar, cycle, variation, broke }) =>
              html`<tr>
                <td>${bar}</td>
                <td>${cycle}</td>
                <td>${variation}</td>
                <td class="words">${broke}</td>
              </tr>`,
          )}
        </tbody>
      </table>
    </details>`;
  }

  /** The way to other takes. */
  #others() {
    const { earlier, later } = this.neighbours;
    const link = (words: string, take: TakeChoice | null) =>
      take === null
        ? nothing
        : html`<button
            class="plain"
            aria-label="${words}: ${take.title}, ${dayAndTime(take.recordedAt)}"
            @click=${() => fire(this, { kind: 'open take', id: take.id })}
          >
            ${words}
          </button>`;
    return html`<nav class="others" aria-label="Other takes">
      ${link('Earlier take', earlier)} ${link('Later take', later)}
      <button class="plain" @click=${() => fire(this, { kind: 'go', screen: 'takes' })}>All takes</button>
    </nav>`;
  }
}

/** How many had been opened when the focus last went to a sentence: the element is a new one whenever the screen is. */
let openedBefore = 0;

/** What the page's head says on the screen, and paper needs: phrase, tempo, length, day. */
function printedHead({ phrase, tempo, recordedAt, click }: Take, { cycles }: Report): string {
  const bpm = 'bpm' in tempo ? [tempo.bpm] : [tempo.ramp[0].bpm, tempo.ramp[tempo.ramp.length - 1].bpm];
  const tempos = bpm.map((one) => fixed(one, Number.isInteger(one) ? 0 : 1)).join(' to ');
  const head = [phrase.title, `${tempos} bpm`, ...(click === 'none' ? ['without a click'] : [])];
  return [...head, count(cycles.played, 'cycle'), dayAndTime(recordedAt)].join(' · ');
}

/** The figure of the sentence, with its sign, for the strip: "+5.5 dB". */
function namedFigure({ weakest }: Report): string | null {
  if (weakest === null) return null;
  const { measure, part, value } = weakest;
  const unit = part ?? measureUnit(measure);
  return unit === '' ? null : `${value > 0 ? '+' : ''}${fixed(value, 1)}\u00a0${unit}`;
}

/** A model player's take says so, also where its notes don't. */
function isUnlabelledModel(take: Take): boolean {
  return take.source === 'model' && !take.notes.toLowerCase().includes('model player');
}

declare global {
  interface HTMLElementTagNameMap {
    'evenhand-review-screen': ReviewScreen;
  }
}
