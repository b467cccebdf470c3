import { html, type TemplateResult } from 'lit';
import type { Grid } from '../../exercises/types';
import type { HeightLines } from '../../grading/heights';
import type { MidiStatus } from '../../midi/types';
import {
  figureInUse,
  inputOfTake,
  strikesAsked,
  type BundledTake,
  type Sitting,
} from '../../practice/sitting';
import type { Strikes } from '../../practice/types';
import type { Rig } from '../../sessions/types';
import { settingsOf, type Limits, type Settings } from '../../settings';
import { figureLine } from '../figure-words';
import { fixed } from '../numbers';
import '../play-screen';
import '../room-options';
import type { InputChoice, LiveFigure } from '../types';
import { cycleOf, writtenOf } from './cycle';
import { outputsOf } from './outputs';
import { remembered } from './remembered';
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
    .cycles=${sitting.phrase.cycles}
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
    ><evenhand-room-options
      slot="options"
      .figure=${sitting.figureChoice}
      .view=${sitting.view}
    ></evenhand-room-options
  ></evenhand-play-screen>`;
}

/** The one number; null where numbers are off. */
function figureShown(sitting: Sitting, cycle: Grid, heights: HeightLines | null): LiveFigure | null {
  if (!sitting.view.numbers) return null;
  const name = figureInUse(sitting);
  return name === 'contrast'
    ? contrastFigure(sitting, cycle, heights, settingsUnder(sitting.limits)['contrast.holds'])
    : chosenFigure(name, sitting.figureNow);
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
