import { html, type TemplateResult } from 'lit';
import type { Sitting } from '../practice/sitting';
import type { Take } from '../sessions/types';
import './app';
import { fixed } from './numbers';
import { phrasePage } from './pages/phrase';
import { playPage } from './pages/play';
import { reviewPage } from './pages/review';

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
      return phrasePage(sitting);
    case 'play':
      return playPage(sitting);
    case 'review':
      return reviewPage(sitting);
  }
}

/** Phrase · tempo · click, for the top line; in Review phrase, tempo and cycles of the open take. */
function lineOf(sitting: Sitting): string {
  if (sitting.screen === 'review' && sitting.reviewed !== null) return takeLine(sitting.reviewed.take);
  const { phrase, bpm, output } = sitting;
  const click = output === '' ? 'click on' : 'click on the kit';
  return [phrase.title, `${fixed(bpm, Number.isInteger(bpm) ? 0 : 1)} bpm`, click].join(' · ');
}

function takeLine({ phrase, tempo }: Take): string {
  const pace =
    'bpm' in tempo ? `${fixed(tempo.bpm, Number.isInteger(tempo.bpm) ? 0 : 1)} bpm` : 'tempo by a ramp';
  return [phrase.title, pace, `${phrase.cycles} cycles`].join(' · ');
}
