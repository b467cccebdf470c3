import { html, type TemplateResult } from 'lit';
import { bundledPhrases } from '../exercises/phrase';
import { gridOf } from '../exercises/grid';
import { seamWords } from '../exercises/seams';
import type { Grid, Phrase } from '../exercises/types';
import type { MidiStatus } from '../midi/types';
import { inputOfTake, strikesAsked, type BundledTake, type Sitting } from '../practice/sitting';
import type { Strikes } from '../practice/types';
import type { PhraseFile } from '../sessions/phrase-file';
import type { Rig, Take } from '../sessions/types';
import { settingsOf, type Limits, type Settings } from '../settings';
import type { Bpm, Db } from '../units';
import './app';
import './exercise-sheet';
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
      return sitting.sheetOpen ? sheet(sitting) : phraseScreen(sitting);
    case 'play':
      return playScreen(sitting);
    case 'review':
      return reviewScreen(sitting);
  }
}

const choicesOf = remembered((saved: readonly PhraseFile[]) => [
  ...saved.map(({ name }) => ({ name, group: 'saved here' })),
  ...bundledPhrases.map(({ name, group }) => ({ name, group })),
]);

const namesOf = remembered((saved: readonly PhraseFile[]) => saved.map(({ name }) => name));

const warningsOf = remembered(seamWords);

function phraseScreen(sitting: Sitting): TemplateResult {
  const { bars, slots } = cycleOf(sitting.phrase, sitting.bpm);
  return html`<evenhand-phrase-screen
    .choices=${choicesOf(sitting.saved)}
    .saved=${namesOf(sitting.saved)}
    .build=${sitting.build}
    .pattern=${sitting.pattern}
    .beatsPerBar=${sitting.beatsPerBar}
    .warnings=${warningsOf(sitting.phrase)}
    .chosen=${sitting.phraseName}
    .phraseTitle=${sitting.phrase.title}
    .phrase=${sitting.phrase}
    .hearing=${sitting.hearing}
    .bars=${bars}
    .slots=${slots}
    .sticking=${sitting.typed}
    .stickingError=${sitting.typedError}
    .bpm=${sitting.bpm}
    .cycles=${sitting.phrase.cycles}
    .limits=${sitting.limits}
    .partialsPerBeat=${sitting.partialsPerBeat}
  ></evenhand-phrase-screen>`;
}

function sheet({ phrase, bpm }: Sitting): TemplateResult {
  return html`<evenhand-exercise-sheet .phrase=${phrase} .bpm=${bpm}></evenhand-exercise-sheet>`;
}

function playScreen(sitting: Sitting): TemplateResult {
  const { bars, slots } = cycleOf(sitting.phrase, sitting.bpm);
  return html`<evenhand-play-screen
    .bars=${bars}
    .slots=${slots}
    .cycles=${sitting.phrase.cycles}
    .live=${sitting.live}
    .position=${sitting.position}
    .settings=${settingsUnder(sitting.limits)}
    .figure=${figureOf(sitting.contrastDb, settingsUnder(sitting.limits)['contrast.holds'])}
    .midi=${sitting.midi}
    .inputs=${inputsOf(sitting.midi, sitting.input, sitting.bundled)}
    .chosenInput=${sitting.input}
    .outputs=${outputsOf(sitting.midi)}
    .chosenOutput=${sitting.output}
    .strikes=${strikesOf(sitting.strikes, sitting.rig, sitting.input, sitting.bundled)}
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

/** Phrase · tempo · click, for the top line; in Review phrase, tempo and cycles of the open take. */
function lineOf(sitting: Sitting): string {
  if (sitting.screen === 'review' && sitting.reviewed !== null) return takeLine(sitting.reviewed.take);
  const { phrase, bpm, output } = sitting;
  const click = output === '' ? 'click on' : 'click on the kit';
  return [phrase.title, `${fixed(bpm, Number.isInteger(bpm) ? 0 : 1)} bpm`, click].join(' · ');
}

const strikesOf = remembered(
  (strikes: Strikes, rig: Rig | null, input: string, bundled: readonly BundledTake[]): Strikes | null =>
    strikesAsked({ strikes, rig, input, bundled }),
);

function takeLine({ phrase, tempo }: Take): string {
  const pace =
    'bpm' in tempo ? `${fixed(tempo.bpm, Number.isInteger(tempo.bpm) ? 0 : 1)} bpm` : 'tempo by a ramp';
  return [phrase.title, pace, `${phrase.cycles} cycles`].join(' · ');
}

/** One cycle of the phrase. */
const cycleOf = remembered((phrase: Phrase, bpm: Bpm): Grid => gridOf({ ...phrase, cycles: 1 }, { bpm }, 0));

const settingsUnder = remembered((limits: Limits): Settings => settingsOf(limits));

/**
 * A function that gives the same answer, the very object, while it is asked the same: so that nothing is drawn anew
 * for a picture that did not change. It remembers the last question only.
 */
function remembered<Asked extends readonly unknown[], Answer>(
  work: (...asked: Asked) => Answer,
): (...asked: Asked) => Answer {
  let last: { readonly asked: Asked; readonly answer: Answer } | null = null;
  return (...asked) => {
    if (last === null || asked.some((one, index) => one !== last?.asked[index])) {
      last = { asked, answer: work(...asked) };
    }
    return last.answer;
  };
}

/** The one number: contrast of the last two cycles, until a player can choose another. */
const figureOf = remembered((contrastDb: Db | null, aimDb: Db): LiveFigure => ({
  value: contrastDb,
  unit: 'dB',
  words: 'contrast of the last two cycles',
  aim: `aim ${fixed(aimDb, 0)} or more`,
}));

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

const outputsOf = remembered((midi: MidiStatus): readonly OutputChoice[] => {
  const outputs = midi.kind === 'on' ? midi.outputs.filter(({ connected }) => connected) : [];
  return [
    { id: '', name: 'This computer’s sound' },
    ...outputs.map(({ id, name }) => ({ id, name: `A note on ${name}` })),
  ];
});

function bundledChoices({ bundled }: Sitting): readonly TakeChoice[] {
  return bundled.map(({ name, words, title, bpm, sentence }) => ({
    id: inputOfTake(name),
    recordedAt: '',
    title: `${words}: ${title}`,
    bpm,
    sentence,
  }));
}
