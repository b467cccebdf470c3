import { html, nothing, type TemplateResult } from 'lit';
import { remedyOutcome, type Remedy } from '../../grading/remedy/remedy';
import type { Reviewing, Treatment } from '../../state/reviewing';
import { isOfRemedy, nextStep } from '../../state/selectors/review';
import { teachWords } from '../../words/rig-steps';
import type { Reviewed } from '../../take/reviewed';
import { fire } from '../shared/events';
import { capital, fixed } from '../shared/numbers';

/** What to play next: the remedy as one button with what it is and when to stop; after a take of it, how it went. */
export function nextStepOf(host: HTMLElement, reviewed: Reviewed, reviewing: Reviewing): TemplateResult {
  const { treatment } = reviewing;
  const step = nextStep(reviewing, reviewed);
  const press = (): void => fire(host, { kind: 'next step' });
  switch (step.kind) {
    case 'rig': {
      const { rig, then } = step;
      return html`<div class="next">
        <p class="remedy">${rig.sentence} <span class="quiet">${capital(rig.purpose)}.</span></p>
        <div class="press">
          <button class="strong" @click=${press}>${teachWords(rig.step)}</button>
          <p class="quiet small">${rig.done}</p>
        </div>
        ${then === null ? nothing : afterRig(host, then.remedy)}
      </div>`;
    }
    case 'remedy': {
      const { sentence, purpose, stop, phrase, bpm } = step.remedy;
      return html`<div class="next">
        <p class="remedy">${sentence} <span class="quiet">${capital(purpose)}.</span></p>
        <div class="press">
          <button class="strong" @click=${press}>Play the remedy: ${phrase.title}, ${bpmWords(bpm)}</button>
          <p class="quiet small">${stop.words}</p>
        </div>
      </div>`;
    }
    case 'remedy again': {
      const { phrase, bpm, stop } = step.treatment.remedy;
      return html`<div class="next">
        ${outcome(step.treatment, reviewed)}
        <div class="press">
          <button class="strong" @click=${press}>
            ${step.treatment.reached === 0 ? 'The remedy again' : 'Once more, to be sure'}: ${phrase.title},
            ${bpmWords(bpm)}
          </button>
          <p class="quiet small">${stop.words}</p>
        </div>
      </div>`;
    }
    case 'back': {
      const { take } = step.treatment.before;
      return html`<div class="next">
        ${outcome(step.treatment, reviewed)}
        <div class="press">
          <button class="strong" @click=${press}>Back to the phrase: ${take.phrase.title}</button>
          <p class="quiet small">
            The remedy has come to where it stops, ${times(step.treatment.reached)} running.
          </p>
        </div>
      </div>`;
    }
    case 'again':
      return html`<div class="next">
        ${treatment !== null && isOfRemedy(treatment, reviewed) ? outcome(treatment, reviewed) : nothing}
        <div class="press"><button class="strong" @click=${press}>Play it again</button></div>
      </div>`;
  }
}

/** What is to be played once the rig is seen to. */
function afterRig(host: HTMLElement, { sentence, purpose, phrase, bpm, stop }: Remedy): TemplateResult {
  return html`<p class="remedy">Then: ${sentence} <span class="quiet">${capital(purpose)}.</span></p>
    <div class="press">
      <button class="plain" @click=${() => fire(host, { kind: 'next step', then: true })}>
        Play the remedy: ${phrase.title}, ${bpmWords(bpm)}
      </button>
      <p class="quiet small">${stop.words}</p>
    </div>`;
}

/** The same measure before the remedy and now. */
function outcome({ before, remedy }: Treatment, { report }: Reviewed) {
  const found = remedyOutcome(before.report, report, remedy);
  return html`<p class="remedy outcome">
    ${found === undefined ? 'This take doesn’t tell what the remedy was for.' : capital(found.words)}
  </p>`;
}

const bpmWords = (bpm: number): string => `${fixed(bpm, Number.isInteger(bpm) ? 0 : 1)} bpm`;
const times = (n: number): string => (n === 2 ? 'twice' : `${n} times`);
