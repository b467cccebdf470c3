import { html, type TemplateResult } from 'lit';
import { inputOfTake, type Sitting } from '../../practice/sitting';
import '../review-screen';
import type { TakeChoice } from '../types';

/** The Review screen. */
export function reviewPage(sitting: Sitting): TemplateResult {
  return html`<evenhand-review-screen
    .take=${sitting.reviewed?.take ?? null}
    .report=${sitting.reviewed?.report ?? null}
    .reviewing=${sitting.reviewing}
    .hearing=${sitting.hearing}
    .saved=${sitting.kept}
    .bundled=${bundledChoices(sitting)}
  ></evenhand-review-screen>`;
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
