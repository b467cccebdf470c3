import { html, type TemplateResult } from 'lit';
import { ceilingsBeside } from '../../practice/take-ceilings';
import { inputOfTake, type Sitting } from '../../practice/sitting';
import '../review-screen';
import type { TakeChoice } from '../types';
import { notePage } from './note';
import { remembered } from './remembered';

/** The Review screen, or the note that is written of its take. */
export function reviewPage(sitting: Sitting): TemplateResult {
  if (sitting.noting !== null) return notePage(sitting, sitting.noting);
  return html`<evenhand-review-screen
    .take=${sitting.reviewed?.take ?? null}
    .report=${sitting.reviewed?.report ?? null}
    .ceilings=${sitting.reviewed === null ? null : ceilings(sitting.reviewed, sitting.keeping.takes)}
    .reviewing=${sitting.reviewing}
    .hearing=${sitting.hearing}
    .saved=${sitting.kept}
    .bundled=${bundledChoices(sitting)}
  ></evenhand-review-screen>`;
}

const ceilings = remembered(ceilingsBeside);

function bundledChoices({ bundled }: Sitting): readonly TakeChoice[] {
  return bundled.map(({ name, words, title, bpm, sentence }) => ({
    id: inputOfTake(name),
    recordedAt: '',
    title: `${words}: ${title}`,
    bpm,
    sentence,
  }));
}
