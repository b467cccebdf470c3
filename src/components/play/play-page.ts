import { html, nothing, type TemplateResult } from 'lit';
import { partialsOfBeats } from '../../exercises/phrase';
import type { Grid } from '../../exercises/types';
import type { HeightLines } from '../../grading/evidence/heights';
import type { MidiStatus } from '../../midi/types';
import type { State } from '../../state/state';
import { cycleOf, writtenOf } from '../../state/cycle';
import { figureInUse, figureShown } from '../../state/selectors/view';
import { isFree } from '../../state/selectors/run';
import { kitOutputOf, SEEN_CLICK } from '../../state/outputs';
import { choiceError } from '../../state/phrase-choice';
import { remembered } from '../../state/remembered';
import { strikesAsked } from '../../state/selectors/input';
import { teacherMay } from '../../state/selectors/library';
import { type BundledTake, inputOfTake } from '../../state/takes';
import type { Strikes } from '../../take/types';
import type { Rig } from '../../sessions/types';
import { settingsOf, type Limits, type Settings } from '../../settings';
import { figureLine } from './figure-words';
import { fixed } from '../shared/numbers';
import './climb-line';
import './last-take';
import './play-screen';
import './playing-options';
import './view-options';
import type { InputChoice, LiveFigure } from '../shared/types';
import { outputsOf } from '../shared/outputs';
import { contrastFigure, heightsIn, rigHint } from './rig-in-play';

/** The Play screen. */
export function playPage(state: State): TemplateResult {
  const cycle = cycleOf(state.phrase, state.bpm);
  const { bars } = cycle;
  const heights = heightsIn(state, cycle);
  const { slots, feet } = writtenOf(state.phrase);
  return html`<evenhand-play-screen
    .bars=${bars}
    .slots=${slots}
    .feet=${feet}
    .phraseError=${choiceError(state)}
    .cycles=${cyclesDue(state)}
    .live=${state.live}
    .position=${state.position}
    .settings=${settingsUnder(state.limits)}
    .heights=${heights}
    .figure=${numberShown(state, cycle, heights)}
    .showTiming=${state.view.timing}
    .mirrored=${state.view.mirrored}
    .rigHint=${rigHint(state)}
    .soundHint=${soundHint(state)}
    .midi=${state.midi}
    .inputs=${inputsOf(state.midi, state.input, state.bundled)}
    .chosenInput=${state.input}
    .outputs=${outputsOf(state.midi)}
    .chosenOutput=${state.output}
    .strikes=${strikesOf(state.strikes, state.rig, state.input, state.bundled)}
    .running=${state.running !== null}
    .teacherMay=${teacherMay(state.library)}
    .teacherPlays=${state.teacherPlays}
    .bare=${isBare(state)}
    .seenClick=${state.output === SEEN_CLICK}
    .free=${isFree(state)}
    ><evenhand-view-options
      slot="options"
      .figure=${state.figureChoice}
      .view=${state.view}
    ></evenhand-view-options
    >${state.running === null ? nextTake(state) : nothing}</evenhand-play-screen
  >`;
}

/** That the click won't be heard, and what to do; empty where it will, or nobody knows yet. */
function soundHint({ output, sound }: State): string {
  if (output !== '' || sound === 'sounds' || sound === 'unknown') return '';
  const why = sound === 'no device' ? 'no sound device' : 'the browser holds sound back';
  return `The click can’t be heard: ${why}. Watch the beat line, or send it to the kit.`;
}

/** How the next take is played, and the one before it. */
function nextTake(state: State): TemplateResult {
  const { plan, phrase, last, rest } = state;
  const partials = phrase.bars.map((bar) => Math.max(...partialsOfBeats(phrase, bar)));
  return html`<evenhand-playing-options
      slot="next"
      .plan=${plan}
      .bpm=${state.bpm}
      .cycles=${phrase.cycles}
      .beatsPerBar=${state.beatsPerBar}
      .partialsPerBeat=${Math.max(...partials)}
      .taps=${state.taps.length}
      .tapOnPad=${state.tapOnPad}
      .midi=${kitOutputOf(state.output) !== null}
      .free=${isFree(state)}
    ></evenhand-playing-options>
    <evenhand-climb slot="next" .climb=${state.climb} .bpm=${state.bpm}></evenhand-climb>
    ${
      last === null && rest === ''
        ? nothing
        : html`<evenhand-last-take slot="last" .last=${last} .rest=${rest}></evenhand-last-take>`
    }`;
}

/** Cycles that are due; 0 while a take has no end. */
function cyclesDue({ running, plan, phrase }: State): number {
  if (running === null || plan.length.kind === 'cycles') return phrase.cycles;
  const { bars, barsPerCycle } = running.grid;
  return plan.length.kind === 'open' ? 0 : bars.length / barsPerCycle;
}

/** Whether the bar that is on is bare. */
function isBare({ running, position }: State): boolean {
  return running !== null && position?.phase === 'playing' && (running.bare[position.bar] ?? false);
}

/** The one number; null where numbers are off. */
function numberShown(state: State, cycle: Grid, heights: HeightLines | null): LiveFigure | null {
  if (!state.view.numbers) return null;
  const name = figureInUse(state);
  return name === 'contrast'
    ? contrastFigure(state.liveAtBeat, cycle, heights, settingsUnder(state.limits)['contrast.holds'])
    : chosenFigure(name, figureShown(state));
}

const chosenFigure = remembered(figureLine);

const strikesOf = remembered(
  (strikes: Strikes, rig: Rig | null, input: string, bundled: readonly BundledTake[]): Strikes | null =>
    strikesAsked({ strikes, rig, input, bundled }),
);

const settingsUnder = remembered((limits: Limits): Settings => settingsOf(limits));

const inputsOf = remembered(
  (midi: MidiStatus, input: string, bundled: readonly BundledTake[]): readonly InputChoice[] => {
    const ports: InputChoice[] =
      midi.kind === 'on' ? midi.inputs.map(({ name, connected }) => midiChoice(name, connected)) : [];
    const isTake = bundled.some(({ name }) => inputOfTake(name) === input);
    if (input !== '' && !isTake && !ports.some(({ id }) => id === input))
      ports.push(midiChoice(input, false));
    const takes = bundled.map(({ name, words, title, bpm }): InputChoice => {
      return { id: inputOfTake(name), name: `${words}: ${title}, ${fixed(bpm, 0)} bpm`, kind: 'take' };
    });
    return [...ports, ...takes];
  },
);

const midiChoice = (name: string, connected: boolean): InputChoice => ({
  id: name,
  name: connected ? name : `${name} (not connected)`,
  kind: 'midi',
});
