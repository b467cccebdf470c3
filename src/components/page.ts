import { html, type TemplateResult } from 'lit';
import { bundledPhrases } from '../exercises/phrase';
import { gridOf } from '../exercises/grid';
import type { Grid } from '../exercises/types';
import { inputOfTake, strikesAsked, type Sitting } from '../practice/sitting';
import { settingsOf } from '../settings';
import './app';
import { fixed } from './numbers';
import './phrase-screen';
import './play-screen';
import './review-screen';
import type { InputChoice, LiveFigure, OutputChoice, TakeChoice } from './types';

/** The whole page as a picture of the sitting. */
export function page(sitting: Sitting): TemplateResult {
  return html`<evenhand-app
    .screen=${sitting.screen}
    .line=${lineOf(sitting)}
    .message=${sitting.message}
    .problem=${sitting.problem}
    >${screenOf(sitting)}</evenhand-app
  >`;
}

function screenOf(sitting: Sitting): TemplateResult {
  switch (sitting.screen) {
    case 'phrase':
      return phraseScreen(sitting);
    case 'play':
      return playScreen(sitting);
    case 'review':
      return reviewScreen(sitting);
  }
}

const phraseChoices = bundledPhrases.map(({ name, phrase }) => ({ name, title: phrase.title }));

function phraseScreen(sitting: Sitting): TemplateResult {
  const { bars, slots } = cycleOf(sitting);
  return html`<evenhand-phrase-screen
    .phrases=${phraseChoices}
    .chosen=${sitting.phraseName}
    .phraseTitle=${sitting.phrase.title}
    .bars=${bars}
    .slots=${slots}
    .sticking=${sitting.typed}
    .stickingError=${sitting.typedError}
    .bpm=${sitting.bpm}
    .cycles=${sitting.phrase.cycles}
    .limits=${sitting.limits}
    .partialsPerBeat=${sitting.partialsPerBeat}
    .bundled=${bundledChoices(sitting)}
  ></evenhand-phrase-screen>`;
}

function playScreen(sitting: Sitting): TemplateResult {
  const { bars, slots } = cycleOf(sitting);
  return html`<evenhand-play-screen
    .bars=${bars}
    .slots=${slots}
    .cycles=${sitting.phrase.cycles}
    .live=${sitting.live}
    .position=${sitting.position}
    .settings=${settingsOf(sitting.limits)}
    .figure=${figureOf(sitting)}
    .midi=${sitting.midi}
    .inputs=${inputsOf(sitting)}
    .chosenInput=${sitting.input}
    .outputs=${outputsOf(sitting)}
    .chosenOutput=${sitting.output}
    .strikes=${strikesAsked(sitting)}
    .running=${sitting.running !== null}
  ></evenhand-play-screen>`;
}

function reviewScreen(sitting: Sitting): TemplateResult {
  return html`<evenhand-review-screen
    .take=${sitting.reviewed?.take ?? null}
    .report=${sitting.reviewed?.report ?? null}
    .saved=${sitting.kept}
    .bundled=${bundledChoices(sitting)}
  ></evenhand-review-screen>`;
}

/** Phrase · tempo · click, for the top line. */
function lineOf(sitting: Sitting): string {
  const { phrase, bpm, output } = sitting;
  const click = output === '' ? 'click on' : 'click on the kit';
  return [phrase.title, `${fixed(bpm, Number.isInteger(bpm) ? 0 : 1)} bpm`, click].join(' · ');
}

let shownCycle: { readonly of: unknown; readonly grid: Grid } | null = null;

/** One cycle of the phrase; the same objects while the phrase is the same, so that nothing is drawn anew for it. */
function cycleOf({ phrase, bpm }: Sitting): Grid {
  const key = JSON.stringify([
    phrase.bars,
    phrase.swing ?? null,
    phrase.partialsPerBeat,
    phrase.beatsPerBar,
    bpm,
  ]);
  if (shownCycle?.of !== key) {
    shownCycle = { of: key, grid: gridOf({ ...phrase, cycles: 1 }, { bpm }, 0) };
  }
  return shownCycle.grid;
}

/** The one number: contrast of the last two cycles, until a player can choose another. */
function figureOf(sitting: Sitting): LiveFigure {
  const aimDb = settingsOf(sitting.limits)['contrast.holds'];
  return {
    value: sitting.live?.contrastDb ?? null,
    unit: 'dB',
    words: 'contrast of the last two cycles',
    aim: `aim ${fixed(aimDb, 0)} or more`,
  };
}

function inputsOf({ midi, input, bundled }: Sitting): readonly InputChoice[] {
  const ports: InputChoice[] =
    midi.kind === 'on' ? midi.inputs.map(({ name, connected }) => midiChoice(name, connected)) : [];
  const isTake = bundled.some(({ name }) => inputOfTake(name) === input);
  if (input !== '' && !isTake && !ports.some(({ id }) => id === input)) ports.push(midiChoice(input, false));
  const takes = bundled.map(({ name, words, title, bpm }): InputChoice => {
    return {
      id: inputOfTake(name),
      name: `${words}: ${title}, ${fixed(bpm, 0)} bpm`,
      kind: 'take',
    };
  });
  return [...ports, ...takes];
}

const midiChoice = (name: string, connected: boolean): InputChoice => ({
  id: name,
  name: connected ? name : `${name} (not connected)`,
  kind: 'midi',
});

function outputsOf({ midi }: Sitting): readonly OutputChoice[] {
  const outputs = midi.kind === 'on' ? midi.outputs.filter(({ connected }) => connected) : [];
  return [
    { id: '', name: 'This computer’s sound' },
    ...outputs.map(({ id, name }) => ({ id, name: `A note on ${name}` })),
  ];
}

function bundledChoices({ bundled }: Sitting): readonly TakeChoice[] {
  return bundled.map(({ name, words, title, bpm, sentence }) => ({
    id: inputOfTake(name),
    recordedAt: '',
    title: `${words}: ${title}`,
    bpm,
    sentence,
  }));
}
