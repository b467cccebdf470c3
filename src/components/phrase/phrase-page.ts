import { html, type TemplateResult } from 'lit';
import { bundledPhrases } from '../../exercises/phrase';
import { seamWords } from '../../exercises/seams';
import type { Phrase } from '../../exercises/types';
import { hasLeads } from '../../state/phrase-choice';
import { rigInUse, type Sitting } from '../../state/reducer';
import { missingSurfaces } from '../../take/voiced-rig';
import type { PhraseFile } from '../../sessions/phrase-file';
import type { Rig } from '../../sessions/types';
import '../papers/exercise-sheet';
import './phrase-screen';
import { missingWords } from './phrase-words';
import { cycleOf, writtenOf } from '../../state/cycle';
import { remembered } from '../../state/remembered';

/** The Phrase screen, or the phrase as a sheet to print. */
export function phrasePage(sitting: Sitting): TemplateResult {
  return sitting.sheetOpen ? sheet(sitting) : phraseScreen(sitting);
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

function phraseScreen(sitting: Sitting): TemplateResult {
  const { bars } = cycleOf(sitting.phrase, sitting.bpm);
  const { slots, feet } = writtenOf(sitting.phrase);
  return html`<evenhand-phrase-screen
    .choices=${choicesOf(sitting.saved)}
    .saved=${namesOf(sitting.saved)}
    .build=${sitting.build}
    .pattern=${sitting.pattern}
    .beatsPerBar=${sitting.beatsPerBar}
    .warnings=${warningsOf(sitting.phrase, rigInUse(sitting))}
    .chosen=${sitting.phraseName}
    .phraseTitle=${sitting.phrase.title}
    .phrase=${sitting.phrase}
    .hearing=${sitting.hearing}
    .bars=${bars}
    .slots=${slots}
    .feet=${feet}
    .sticking=${sitting.typed}
    .stickingError=${sitting.typedError}
    .bpm=${sitting.bpm}
    .pace=${sitting.pace}
    .manner=${sitting.manner}
    .ownVoicing=${sitting.base.voicing !== undefined}
    .feetError=${sitting.feetError}
    .dynError=${sitting.dynError}
    .hasLeads=${hasLeads(sitting.phraseName)}
    .cycles=${sitting.phrase.cycles}
    .limits=${sitting.limits}
    .partialsPerBeat=${sitting.partialsPerBeat}
  ></evenhand-phrase-screen>`;
}

function sheet({ phrase, bpm }: Sitting): TemplateResult {
  return html`<evenhand-exercise-sheet .phrase=${phrase} .bpm=${bpm}></evenhand-exercise-sheet>`;
}
