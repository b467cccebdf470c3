import { html, type TemplateResult } from 'lit';
import { bundledPhrases } from '../../exercises/phrase';
import { seamWords } from '../../exercises/seams';
import type { Phrase } from '../../exercises/types';
import { choiceError } from '../../state/phrase-choice';
import type { State } from '../../state/state';
import { cycleOf, writtenOf } from '../../state/cycle';
import { hasLeads } from '../../state/phrase-choice';
import { remembered } from '../../state/remembered';
import { rigInUse } from '../../state/selectors/input';
import { missingSurfaces } from '../../take/voiced-rig';
import type { PhraseFile } from '../../sessions/phrase-file';
import type { Rig } from '../../sessions/types';
import '../papers/exercise-sheet';
import './phrase-screen';
import { missingWords } from './phrase-words';

/** The Phrase screen, or the phrase as a sheet to print. */
export function phrasePage(state: State): TemplateResult {
  return state.sheetOpen ? sheet(state) : phraseScreen(state);
}

const choicesOf = remembered((saved: readonly PhraseFile[]) => [
  ...saved.map(({ name }) => ({ name, group: 'saved here' })),
  ...bundledPhrases.map(({ name, group }) => ({ name, group })),
]);

const namesOf = remembered((saved: readonly PhraseFile[]) => saved.map(({ name }) => name));

const warningsOf = remembered((phrase: Phrase, rig: Rig | null): readonly string[] => {
  const missing = rig === null ? '' : missingWords(missingSurfaces(rig, phrase));
  return [...(missing === '' ? [] : [missing]), ...seamWords(phrase)];
});

function phraseScreen(state: State): TemplateResult {
  const { bars } = cycleOf(state.phrase, state.bpm);
  const { slots, feet } = writtenOf(state.phrase);
  return html`<evenhand-phrase-screen
    .choices=${choicesOf(state.saved)}
    .saved=${namesOf(state.saved)}
    .build=${state.build}
    .pattern=${state.pattern}
    .beatsPerBar=${state.beatsPerBar}
    .warnings=${warningsOf(state.phrase, rigInUse(state))}
    .chosen=${state.phraseName}
    .phraseTitle=${state.phrase.title}
    .phrase=${state.phrase}
    .hearing=${state.sounding}
    .bars=${bars}
    .slots=${slots}
    .feet=${feet}
    .sticking=${state.typed}
    .stickingError=${state.typedError}
    .phraseError=${choiceError(state)}
    .bpm=${state.bpm}
    .pace=${state.pace}
    .performance=${state.performance}
    .ownVoicing=${state.base.voicing !== undefined}
    .feetError=${state.feetError}
    .dynError=${state.dynError}
    .hasLeads=${hasLeads(state.phraseName)}
    .cycles=${state.phrase.cycles}
    .limits=${state.limits}
    .partialsPerBeat=${state.partialsPerBeat}
  ></evenhand-phrase-screen>`;
}

function sheet({ phrase, bpm }: State): TemplateResult {
  return html`<evenhand-exercise-sheet .phrase=${phrase} .bpm=${bpm}></evenhand-exercise-sheet>`;
}
