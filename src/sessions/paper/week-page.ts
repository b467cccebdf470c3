import { short } from '../../words/numbers';
import { engraved } from './engraving';
import { html, nothing, raw } from './markup';
import { pageOf } from './page';
import type { WeekSheet } from '../week-sheet';
import { targetWords } from '../week/target-words';

const DAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const;

/**
 * A week sheet as a page to print: student, day it is due, phrase in notation, tempo, the teacher's words, the targets in a
 * ruled box, a line for each day to write minutes and tempo on. Self-contained; names stay text.
 * @throws InputError for a phrase that does not parse
 */
export function weekSheetHtml(sheet: WeekSheet): string {
  const { student, phrase, bpm, words, targets, due } = sheet;
  const title = student === '' ? 'Week sheet' : `Week sheet for ${student}`;
  const notation = engraved(phrase);
  return pageOf(
    title,
    html`<div class="head">
        <h1>${title}</h1>
        <span>${due === null ? '' : `until ${due}`}</span>
      </div>
      <h2>${phrase.title}, ${short(bpm)} bpm</h2>
      ${raw(notation.svg)}
      ${notation.left === 0 ? nothing : html`<p class="quiet">and ${notation.left} bars more</p>`}
      ${words.trim() === '' ? nothing : html`<p class="words">${words.trim()}</p>`}
      ${targets.length === 0 ? nothing : html`<div class="target"><b>To reach this week</b>${targets.map((one) => html`<div>☐ ${targetWords(one)}</div>`)}</div>`}
      <table class="log">
        <thead>
          <tr>
            <th scope="col">day</th>
            <th scope="col">minutes</th>
            <th scope="col">tempo</th>
            <th scope="col">how it went</th>
          </tr>
        </thead>
        <tbody>
          ${DAYS.map(
            (day) =>
              html`<tr>
                <th scope="row">${day}</th>
                <td></td>
                <td></td>
                <td></td>
              </tr>`,
          )}
        </tbody>
      </table>`,
  );
}
