import '../../src/components/papers/exercise-sheet';
import '../../src/components/notation/notation';
import '../../src/components/phrase/phrase-screen';
import { gridOf } from '../../src/exercises/grid';
import { bundledPhrases, phraseFromText, phraseNamed } from '../../src/exercises/phrase';
import { rudimentPhrase } from '../../src/exercises/rudiment-phrase';
import { rudiments } from '../../src/exercises/rudiments';
import type { Phrase } from '../../src/exercises/types';

const query = new URLSearchParams(location.search);

function typed(title: string, text: string, partialsPerBeat: number, beatsPerBar = 4): Phrase {
  return { ...phraseFromText(text, { beatsPerBar, partialsPerBeat, cycles: 8 }), title };
}

const samples: readonly Phrase[] = [
  bundledPhrases[0].phrase,
  { ...bundledPhrases[0].phrase, title: 'feet', feet: 'K---H---K-K-H---' },
  typed('everything in sixteenths', '{l}R(r)l- {rr}Ll-r [RL]-rl -r-l', 4),
  typed('triplets', '{l}Rlr {r}Lrl R-l -rl', 3),
  typed('quintuplets', 'Rlrrl Lrllr R-r-- (r)(l)(r)(l)(r)', 5),
  typed('sextuplets', 'Rlrrll Rlr L-- R-ll r- R-----', 6),
  typed('septuplets', 'Rlrlrrl Lrlrllr Rlrlrrl Lrlrllr', 7),
  typed('thirty-seconds', 'rrllrrll R------- rrllR--- R-l-r-r-', 8),
  typed('quarters', 'RLRL', 1),
];

function chosen(): readonly Phrase[] {
  if (query.has('rudiments')) {
    return rudiments.filter(({ kind }) => kind === 'measured').map(({ number }) => rudimentPhrase(number));
  }
  return query.has('sample') ? [samples[Number(query.get('sample'))]] : samples;
}

const shown = query.get('sheet') ?? query.get('screen');
if (shown === null) {
  for (const phrase of chosen()) {
    const heading = document.createElement('h3');
    heading.textContent = phrase.title;
    const notation = document.createElement('evenhand-notation');
    notation.phrase = phrase;
    document.body.append(heading, notation);
  }
} else if (query.has('sheet')) {
  const sheet = document.createElement('evenhand-exercise-sheet');
  sheet.phrase = phraseNamed(shown);
  sheet.bpm = 60;
  document.body.style.padding = '0';
  document.body.append(sheet);
} else {
  const screen = document.createElement('evenhand-phrase-screen');
  const phrase = phraseNamed(shown);
  const { bars, slots } = gridOf({ ...phrase, cycles: 1 }, { bpm: 84 }, 0);
  Object.assign(screen, { phrase, bars, slots, phraseTitle: phrase.title, hearing: query.has('hearing') });
  document.body.append(screen);
  if (query.has('notation')) {
    void screen.updateComplete.then(() => {
      const tools = screen.shadowRoot?.querySelector('evenhand-phrase-tools');
      tools?.dispatchEvent(new CustomEvent('view', { detail: { view: 'notation' } }));
    });
  }
}
