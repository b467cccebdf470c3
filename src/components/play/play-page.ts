import { html, nothing, type TemplateResult } from 'lit';
import { partialsOfBeats } from '../../exercises/phrase';
import type { Grid } from '../../exercises/types';
import type { HeightLines } from '../../grading/heights';
import type { MidiStatus } from '../../midi/types';
import {
  figureInUse,
  figureTold,
  inputOfTake,
  isFree,
  kitOutputOf,
  SEEN_CLICK,
  strikesAsked,
  type BundledTake,
  type Sitting,
} from '../../state/reducer';
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
import { cycleOf, writtenOf } from '../../state/cycle';
import { outputsOf } from '../shared/outputs';
import { remembered } from '../../state/remembered';
import { contrastFigure, heightsIn, rigHint } from './rig-in-play';

/** The Play screen. */
export function playPage(sitting: Sitting): TemplateResult {
  const cycle = cycleOf(sitting.phrase, sitting.bpm);
  const { bars } = cycle;
  const heights = heightsIn(sitting, cycle);
  const { slots, feet } = writtenOf(sitting.phrase);
  return html`<evenhand-play-screen
    .bars=${bars}
    .slots=${slots}
    .feet=${feet}
    .cycles=${cyclesDue(sitting)}
    .live=${sitting.live}
    .position=${sitting.position}
    .settings=${settingsUnder(sitting.limits)}
    .heights=${heights}
    .figure=${figureShown(sitting, cycle, heights)}
    .showTiming=${sitting.view.timing}
    .mirrored=${sitting.view.mirrored}
    .rigHint=${rigHint(sitting)}
    .midi=${sitting.midi}
    .inputs=${inputsOf(sitting.midi, sitting.input, sitting.bundled)}
    .chosenInput=${sitting.input}
    .outputs=${outputsOf(sitting.midi)}
    .chosenOutput=${sitting.output}
    .strikes=${strikesOf(sitting.strikes, sitting.rig, sitting.input, sitting.bundled)}
    .running=${sitting.running !== null}
    .bare=${isBare(sitting)}
    .seenClick=${sitting.output === SEEN_CLICK}
    .free=${isFree(sitting)}
    ><evenhand-room-options
      slot="options"
      .figure=${sitting.figureChoice}
      .view=${sitting.view}
    ></evenhand-room-options
    >${sitting.running === null ? ways(sitting) : nothing}</evenhand-play-screen
  >`;
}

/** How the next take is played, and the one before it. */
function ways(sitting: Sitting): TemplateResult {
  const { plan, phrase, last, rest } = sitting;
  const partials = phrase.bars.map((bar) => Math.max(...partialsOfBeats(phrase, bar)));
  return html`<evenhand-playing-ways
      slot="ways"
      .plan=${plan}
      .bpm=${sitting.bpm}
      .cycles=${phrase.cycles}
      .beatsPerBar=${sitting.beatsPerBar}
      .partialsPerBeat=${Math.max(...partials)}
      .taps=${sitting.taps.length}
      .tapOnPad=${sitting.tapOnPad}
      .midi=${kitOutputOf(sitting.output) !== null}
      .free=${isFree(sitting)}
    ></evenhand-playing-ways>
    <evenhand-climb slot="ways" .climb=${sitting.climb} .bpm=${sitting.bpm}></evenhand-climb>
    ${
      last === null && rest === ''
        ? nothing
        : html`<evenhand-last-take slot="last" .last=${last} .rest=${rest}></evenhand-last-take>`
    }`;
}

/** Cycles that are due; 0 while a take has no end. */
function cyclesDue({ running, plan, phrase }: Sitting): number {
  if (running === null || plan.length.kind === 'cycles') return phrase.cycles;
  const { bars, barsPerCycle } = running.grid;
  return plan.length.kind === 'open' ? 0 : bars.length / barsPerCycle;
}

/** Whether the bar that is on is bare. */
function isBare({ running, position }: Sitting): boolean {
  return running !== null && position?.phase === 'playing' && (running.bare[position.bar] ?? false);
}

/** The one number; null where numbers are off. */
function figureShown(sitting: Sitting, cycle: Grid, heights: HeightLines | null): LiveFigure | null {
  if (!sitting.view.numbers) return null;
  const name = figureInUse(sitting);
  return name === 'contrast'
    ? contrastFigure(sitting.liveAtBeat, cycle, heights, settingsUnder(sitting.limits)['contrast.holds'])
    : chosenFigure(name, figureTold(sitting));
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
