import type { Phrase, Tempo } from '../../exercises/types';
import { withFirst } from '../take-first';
import { choiceOf, chosenOf, ledBy } from '../../grading/chosen';
import { strengthWords } from '../../grading/words';
import { CHOSEN, ofItself } from '../../words/findings';
import { short } from '../../words/numbers';
import type { Report } from '../../grading/types';
import { engraved } from './engraving';
import { marginPicture, marginScale } from './margins';
import { html, inMarkdown, nothing, raw, type Markup } from './markup';
import { CAUTION, pageOf } from './page';
import { reasonPicture } from './reason';
import { noteTable } from './table';
import type { Take } from '../types';
import { proposedTargets } from '../week/proposed-targets';
import { targetWords } from '../week/target-words';

/** What a teacher writes on a note. */
export interface NoteText {
  /** A name, initials or a number; may be empty. */
  readonly student: string;
  /** A day, like 2026-12-01. */
  readonly date: string;
  /** The teacher's own; lines stay lines. */
  readonly words: string;
  /** Next week's target; empty for none. */
  readonly target: string;
}

/** A take with its report. */
export interface NotedTake {
  readonly take: Take;
  readonly report: Report;
  /** How its phrase stands now, in sentences; left out where nothing is to say. */
  readonly standing?: string;
}

/**
 * The lesson note as a page to print or send: student, date, each take's phrase in notation, its sentence, the table that
 * matters with each margin drawn, a picture of the reason; the teacher's words in a larger face, next week's target in a
 * ruled box, the caution in small print. Self-contained: no script, nothing fetched. Whatever a person or a file wrote
 * stays text.
 * @throws InputError for a phrase that does not parse
 */
export function noteHtml(text: NoteText, noted: readonly NotedTake[]): string {
  const { student, date, words, target } = text;
  const title = student === '' ? 'Lesson note' : `Lesson note for ${student}`;
  return pageOf(
    `${title}, ${date}`,
    html`<div class="head">
        <h1>${title}</h1>
        <span>${date}</span>
      </div>
      ${noted.map(takeSection)} ${words.trim() === '' ? nothing : html`<p class="words">${words.trim()}</p>`}
      ${target.trim() === '' ? nothing : html`<div class="target"><b>Next week</b>${target.trim()}</div>`}`,
  );
}

/** The same as Markdown: notation as sticking text, pictures left out. */
export function noteMarkdown(text: NoteText, noted: readonly NotedTake[]): string {
  const { student, date, words, target } = text;
  const title = student === '' ? 'Lesson note' : `Lesson note for ${student}`;
  const blocks = [
    `# ${inMarkdown(title)}`,
    date,
    ...noted.flatMap(takeBlocks),
    lines(words)
      .map((line) => `> ${inMarkdown(line)}`)
      .join('  \n'),
    ...(target.trim() === '' ? [] : [`**Next week:** ${lines(target).map(inMarkdown).join('; ')}`]),
    `_${CAUTION}_`,
  ];
  return `${blocks.filter((block) => block !== '').join('\n\n')}\n`;
}

/**
 * Next week's target as it is proposed from a take, for the teacher to change.
 * @returns empty for a take whose tempo was to move
 */
export function proposedTarget({ take, report }: NotedTake): string {
  const bpm = 'bpm' in take.tempo ? take.tempo.bpm : undefined;
  if (bpm === undefined) return '';
  const targets = proposedTargets({ take, report }, bpm).map(targetWords).join('; ');
  return `${take.phrase.title}: ${targets}`;
}

/** The targets that would be proposed, whatever leads. */
export function targetsThatLead({ take, report }: NotedTake): readonly string[] {
  const choices = [null, ...report.others.map(choiceOf)];
  return choices.map((choice) => proposedTarget({ take: withFirst(take, choice), report }));
}

function takeSection(noted: NotedTake): Markup {
  const { take, report, standing = '' } = noted;
  const notation = engraved(take.phrase);
  const lead = chosenOf(report, take.first);
  const { head, rows } = noteTable(ledBy(report, lead));
  const reason = reasonPicture(ledBy(report, lead));
  return html`<section>
    <h2>${headingOf(noted)}</h2>
    ${raw(notation.svg)}
    ${notation.left === 0 ? nothing : html`<p class="quiet">and ${notation.left} bars more</p>`}
    <p class="sentence">${lead?.sentence ?? report.sentence}</p>
    ${lead === undefined ? nothing : html`<p class="quiet">${chosenWords(report)}</p>`}
    <p class="quiet">${[playedWords(take), strengthWords(report, lead)].join(' ')}</p>
    ${standing === '' ? nothing : html`<p>${standing}</p>`}
    ${rows.length === 0 ? nothing : tableOf(head, rows, report)}
    ${
      reason === undefined
        ? nothing
        : html`<p class="quiet">${reason.words}</p>
            ${raw(reason.svg)}`
    }
  </section>`;
}

/** The table with each variation's margin drawn beside its name. */
function tableOf(
  head: readonly string[],
  rows: readonly (readonly string[])[],
  { variations }: Report,
): Markup {
  const body = rows.map(
    ([first, ...rest], index) =>
      html`<tr>
        <th scope="row">${first}</th>
        <td>${raw(marginPicture(variations[index].supported))}</td>
        ${rest.map((cell) => html`<td>${cell}</td>`)}
      </tr>`,
  );
  const [first, ...others] = head;
  return html`<table>
    <thead>
      <tr>
        <th scope="col">${first}</th>
        <th scope="col">${raw(marginScale())}</th>
        ${others.map((name) => html`<th scope="col">${name}</th>`)}
      </tr>
    </thead>
    <tbody>
      ${body}
    </tbody>
  </table>`;
}

function takeBlocks(noted: NotedTake): string[] {
  const { take, report, standing = '' } = noted;
  const lead = chosenOf(report, take.first);
  const { head, rows } = noteTable(ledBy(report, lead));
  const row = (cells: readonly string[]): string =>
    `| ${cells.map((one) => inMarkdown(one).replaceAll('|', '\\|')).join(' | ')} |`;
  const bars = take.phrase.bars.map(
    ({ variation, sticking }) => `- ${inMarkdown(variation)}: ${codeOf(sticking)}`,
  );
  return [
    `## ${inMarkdown(headingOf(noted))}`,
    [...new Set(bars)].join('\n'),
    `**${inMarkdown(lead?.sentence ?? report.sentence)}**`,
    lead === undefined ? '' : inMarkdown(chosenWords(report)),
    inMarkdown([playedWords(take), strengthWords(report, lead)].join(' ')),
    inMarkdown(standing),
    rows.length === 0
      ? ''
      : [row(head), `| ${head.map(() => '---').join(' | ')} |`, ...rows.map(row)].join('\n'),
  ];
}

const chosenWords = ({ sentence }: Report): string => `${CHOSEN} ${ofItself(sentence)}`;

const headingOf = ({ take: { phrase, tempo } }: NotedTake): string => `${phrase.title}, ${tempoWords(tempo)}`;

function tempoWords(tempo: Tempo): string {
  if ('bpm' in tempo) return `${short(tempo.bpm)} bpm`;
  const bpms = tempo.ramp.map(({ bpm }) => bpm);
  return `${short(Math.min(...bpms))} to ${short(Math.max(...bpms))} bpm`;
}

/** Nobody is presented as having played what a model player made. */
function playedWords({ source, recordedAt, phrase, click }: Take): string {
  const by = source === 'model' ? ', by the model player, not by a person' : '';
  const without = click === 'none' ? ', without a click' : '';
  return `Played ${recordedAt.slice(0, 10)}${by}${without}, ${cyclesWords(phrase)}.`;
}

const cyclesWords = ({ cycles }: Phrase): string => (cycles === 1 ? 'once through' : `${cycles} cycles`);

const lines = (text: string): string[] =>
  text
    .split(/\r\n?|\n/)
    .map((line) => line.trim())
    .filter((line) => line !== '');

/** Sticking as code, which Markdown leaves as it is; it has no backticks in it that could end it. */
const codeOf = (sticking: string): string => `\`${sticking.replaceAll(/\s+/g, ' ').replaceAll('`', '')}\``;
