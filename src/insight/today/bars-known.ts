import { barSticking, bundledPhrases, partialsOfBeats } from '../../exercises/phrase';
import { stickingText } from '../../exercises/sticking';
import type { Phrase, Sticking } from '../../exercises/types';
import { accentsOff } from '../../exercises/variations';

/** Bars of the app's own phrases with these titles, as they are written and without their accents. */
export function barsKnown(titles: ReadonlySet<string>): ReadonlySet<string> {
  return new Set(
    bundledPhrases
      .filter(({ phrase }) => titles.has(phrase.title))
      .flatMap(({ phrase }) =>
        phrase.bars.flatMap((_, bar) => [barText(phrase, bar), barText(phrase, bar, accentsOff)]),
      ),
  );
}

/** Each bar of a phrase, by what is played in it. */
export function barsIn(phrase: Phrase): readonly string[] {
  return phrase.bars.map((_, bar) => barText(phrase, bar));
}

function barText(phrase: Phrase, bar: number, changed = (sticking: Sticking): Sticking => sticking): string {
  return stickingText(changed(barSticking(phrase, bar)), partialsOfBeats(phrase, phrase.bars[bar]));
}
