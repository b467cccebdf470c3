import { short } from '../../words/numbers';
import { engraved } from './engraving';
import { html, nothing, raw } from './markup';
import { pageOf } from './page';
import { counted } from '../../text';
import { exercisesOf } from '../week/exercises';
import type { WeekExercise, WeekSheet } from '../week-sheet';
import { targetWords } from '../week/target-words';

const DAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const;

/**
 * A week sheet as a page to print: student, day it is due, phrase in notation, tempo, the teacher's words, the targets in a
 * ruled box, a line for each day to write minutes and tempo on. Self-contained; names stay text.
 * @throws InputError for a phrase that does not parse
 */
export function weekSheetHtml(sheet: WeekSheet): string {
  const { student, due } = sheet;
  const exercises = exercisesOf(sheet);
  const title = student === '' ? 'Week sheet' : `Week sheet for ${student}`;
  return pageOf(
    title,
    html`<div class="head">
        <h1>${title}</h1>
        <span>${due === null ? '' : `until ${due}`}</span>
      </div>
      ${exercises.map((one, index) => exerciseHtml(one, exercises.length > 1 ? `${index + 1}. ` : ''))}
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

function exerciseHtml({ phrase, bpm, minutes, targets, words, before = '' }: WeekExercise, number: string) {
  const notation = engraved(phrase);
  const aDay = minutes === undefined ? '' : `, ${counted(minutes, 'minute')} a day`;
  return html`${before.trim() === '' ? nothing : html`<p>${before.trim()}</p>`}
    <h2>${number}${phrase.title}, ${short(bpm)} bpm${aDay}</h2>
    ${raw(notation.svg)}
    ${notation.left === 0 ? nothing : html`<p class="quiet">and ${notation.left} bars more</p>`}
    ${words.trim() === '' ? nothing : html`<p class="words">${words.trim()}</p>`}
    ${targets.length === 0 ? nothing : html`<div class="target"><b>To reach this week</b>${targets.map((one) => html`<div>☐ ${targetWords(one)}</div>`)}</div>`}`;
}
