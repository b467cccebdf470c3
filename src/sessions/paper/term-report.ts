import { count, fixed, short } from '../../grading/number-words';
import { remedyIsFor, type TakeSummary } from '../take-record';
import type { Bpm } from '../../units';
import { html, nothing, type Markup } from './markup';
import { pageOf } from './page';

/** One take as a term report has it. */
export interface TermTake {
  readonly title: string;
  /** ISO 8601. */
  readonly recordedAt: string;
  readonly minutes: number;
  readonly bpm: Bpm;
  /** True where four bars of five held. */
  readonly held: boolean;
}

interface TermText {
  readonly student: string;
  readonly words: string;
}

/** What was worked on: a phrase, its tempo then and now, and for how long. */
interface TermRow {
  readonly title: string;
  readonly takes: number;
  readonly minutes: number;
  /** Fastest tempo held in the first half of its takes and in all of them; null where none held. */
  readonly then: Bpm | null;
  readonly now: Bpm | null;
}

/** Bars of five of which four must hold. */
const HELD_SHARE = 0.8;

/**
 * A take as its record has it. A remedy is counted with the phrase that it is for, and says nothing of how fast that
 * holds.
 */
export function termTakeOf({ title, recordedAt, minutes, bpm, remedy, graded }: TakeSummary): TermTake {
  const bars = graded?.bars ?? [];
  const played = bars.reduce((sum, row) => sum + row.bars, 0);
  const held = bars.reduce((sum, row) => sum + row.held, 0);
  return {
    title: remedyIsFor(remedy) ?? title,
    recordedAt,
    minutes,
    bpm,
    held: remedy === '' && played > 0 && held >= HELD_SHARE * played,
  };
}

/** Phrases in the order they were first played. */
export function termRows(takes: readonly TermTake[]): readonly TermRow[] {
  const inOrder = [...takes].sort((a, b) =>
    a.recordedAt < b.recordedAt ? -1 : a.recordedAt > b.recordedAt ? 1 : 0,
  );
  const byTitle = new Map<string, TermTake[]>();
  for (const take of inOrder) byTitle.set(take.title, [...(byTitle.get(take.title) ?? []), take]);
  return [...byTitle].map(([title, own]) => ({
    title,
    takes: own.length,
    minutes: own.reduce((sum, { minutes }) => sum + minutes, 0),
    then: fastest(own.slice(0, Math.ceil(own.length / 2))),
    now: fastest(own),
  }));
}

/**
 * A page for parents: what was worked on, tempo then and now, minutes, the teacher's words. No levels and no terms of
 * measurement. Self-contained, one page.
 */
export function termReportHtml({ student, words }: TermText, takes: readonly TermTake[]): string {
  const title = student === '' ? 'This term' : `This term: ${student}`;
  const days = takes.map(({ recordedAt }) => recordedAt.slice(0, 10)).sort();
  const period = days.length === 0 ? '' : `${days[0]} to ${days[days.length - 1]}`;
  // Where one page is too small, what was played longest stays.
  const rows = [...termRows(takes)].sort((a, b) => b.minutes - a.minutes);
  const rest = rows.slice(MOST_ROWS);
  const shown = termRows(takes).filter((row) =>
    rows.slice(0, MOST_ROWS).some(({ title: one }) => one === row.title),
  );
  return pageOf(
    title,
    html`<div class="head">
        <h1>${title}</h1>
        <span>${period}</span>
      </div>
      <p>
        ${capital(count(takes.length, 'recorded take'))} on ${count(new Set(days).size, 'day')},
        ${minuteWords(minutesOf(takes))} of playing.
      </p>
      <table>
        <thead>
          <tr>
            <th scope="col">what was worked on</th>
            <th scope="col">steady at, then</th>
            <th scope="col">steady at, now</th>
            <th scope="col">playing</th>
          </tr>
        </thead>
        <tbody>
          ${shown.map(rowOf)}
        </tbody>
      </table>
      ${rest.length === 0 ? nothing : html`<p>And ${count(rest.length, 'other')}, ${minuteWords(minutesOf(rest))}.</p>`}
      <p class="quiet">
        Steady: at least four bars of five were complete, even and in time. Tempo is in beats a minute; more
        is faster.
      </p>
      ${words.trim() === '' ? nothing : html`<p class="words">${words.trim()}</p>`}`,
  );
}

/** More don't stand on one page beside a teacher's words. */
const MOST_ROWS = 12;

const minutesOf = (all: readonly { readonly minutes: number }[]): number =>
  all.reduce((sum, { minutes }) => sum + minutes, 0);

const rowOf = ({ title, then, now, minutes }: TermRow): Markup =>
  html`<tr>
    <th scope="row">${title}</th>
    <td>${tempoWords(then)}</td>
    <td>${tempoWords(now)}</td>
    <td>${minuteWords(minutes)}</td>
  </tr>`;

const tempoWords = (bpm: Bpm | null): string => (bpm === null ? 'not yet' : `${short(bpm)} bpm`);
const minuteWords = (minutes: number): string => `${fixed(minutes, minutes < 10 ? 1 : 0)} min`;

function fastest(takes: readonly TermTake[]): Bpm | null {
  const held = takes.filter((take) => take.held).map(({ bpm }) => bpm);
  return held.length === 0 ? null : Math.max(...held);
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
