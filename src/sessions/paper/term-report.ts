import { count, fixed } from '../../words/numbers';
import { html, nothing, type Markup } from './markup';
import { pageOf } from './page';
import { capital } from '../../text';

interface TermText {
  readonly student: string;
  readonly words: string;
}

/** What was worked on: a phrase, how it stands, and for how long. */
export interface TermRow {
  readonly title: string;
  readonly minutes: number;
  /** The tempo up to which it is steady. */
  readonly steady: string;
  /** What became of it over the term. */
  readonly change: string;
}

/** What was played in a term's days. */
export interface Term {
  /** In the order they were first played. */
  readonly rows: readonly TermRow[];
  readonly takes: number;
  /** Days with a take, in order, like 2026-12-01. */
  readonly days: readonly string[];
}

/**
 * A page for parents: what was worked on, up to which tempo it is steady, what became of that, minutes, the teacher's
 * words. No levels and no terms of measurement. Self-contained, one page.
 */
export function termReportHtml({ student, words }: TermText, { rows, takes, days }: Term): string {
  const title = student === '' ? 'This term' : `This term: ${student}`;
  const period = days.length === 0 ? '' : `${days[0]} to ${days[days.length - 1]}`;
  // Where one page is too small, what was played longest stays.
  const longest = [...rows].sort((a, b) => b.minutes - a.minutes);
  const rest = longest.slice(MOST_ROWS);
  const shown = rows.filter((row) => !rest.includes(row));
  return pageOf(
    title,
    html`<div class="head">
        <h1>${title}</h1>
        <span>${period}</span>
      </div>
      <p>
        ${capital(count(takes, 'recorded take'))} on ${count(days.length, 'day')},
        ${minuteWords(minutesOf(rows))} of playing.
      </p>
      <table>
        <thead>
          <tr>
            <th scope="col">what was worked on</th>
            <th scope="col" class="short">steady up to</th>
            <th scope="col">over the term</th>
            <th scope="col" class="short">playing</th>
          </tr>
        </thead>
        <tbody>
          ${shown.map(rowOf)}
        </tbody>
      </table>
      ${rest.length === 0 ? nothing : html`<p>And ${count(rest.length, 'other')}, ${minuteWords(minutesOf(rest))}.</p>`}
      <p class="quiet">
        Steady: at least four bars of five are complete, even and in time, in the hardest bar too. Tempo is in
        beats a minute (bpm); more is faster. “Or more”: nothing faster was played.
      </p>
      ${words.trim() === '' ? nothing : html`<p class="words">${words.trim()}</p>`}`,
  );
}

/** More don't stand on one page beside a teacher's words. */
const MOST_ROWS = 12;

const minutesOf = (all: readonly TermRow[]): number => all.reduce((sum, { minutes }) => sum + minutes, 0);

const rowOf = ({ title, steady, change, minutes }: TermRow): Markup =>
  html`<tr>
    <th scope="row">${title}</th>
    <td>${steady}</td>
    <td>${change}</td>
    <td class="short">${minuteWords(minutes)}</td>
  </tr>`;

const minuteWords = (minutes: number): string => `${fixed(minutes, minutes < 10 ? 1 : 0)} min`;
