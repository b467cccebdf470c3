import { html, type TemplateResult } from 'lit';
import { figureWords } from '../../insight/history/trend-words';
import { ceilingWords } from '../../insight/ceiling/words';
import { dateOf } from '../../insight/history/weeks';
import { fixed, signed } from '../shared/numbers';
import type { ChartPoint, ChartUnit, Picture } from './picture';

/** A picture's numbers as a table: for screen readers, which can't see the canvas. */
export function pictureTable(picture: Picture): TemplateResult {
  switch (picture.kind) {
    case 'rows':
      return table(
        picture,
        picture.rows.some((row) => row.both) ? ['variation', 'margin'] : ['strokes', 'right', 'left'],
        picture.rows.map(({ label, R, L, both }) =>
          both
            ? [label, pointWords(both, picture.unit)]
            : picture.name === 'differences by place'
              ? [label, differenceWords(R), differenceWords(L)]
              : [label, pointWords(R, picture.unit), pointWords(L, picture.unit)],
        ),
      );
    case 'tempo':
      return table(
        picture,
        ['bar', 'asked', 'played'],
        picture.points.map(({ bar, plannedBpm, playedBpm }) => [
          String(bar),
          `${fixed(plannedBpm, 1)} bpm`,
          playedBpm === null ? 'too few strokes' : `${fixed(playedBpm, 1)} bpm`,
        ]),
      );
    case 'ceiling':
      return table(
        picture,
        ['variation', 'ceiling', 'bars'],
        picture.rows.map(({ label, words, bars }) => [
          label,
          words,
          bars
            .map(({ bpm, held, notHeld }) => `${fixed(bpm, 0)} bpm: ${held} of ${held + notHeld} clean`)
            .join('; '),
        ]),
      );
    case 'course':
      return table(
        picture,
        ['day', 'ceiling'],
        picture.spells.flat().map(({ day, ceiling }) => [dateOf(day), ceilingWords(ceiling)]),
      );
    case 'weeks':
      return table(
        picture,
        ['day', 'value', '90 %', 'takes', 'cold or warm', ...(picture.name === 'margin' ? ['of'] : [])],
        picture.points.map(({ day, value, interval, takes, cold, of }) => [
          dateOf(day),
          figureWords(picture.name, value),
          interval === null
            ? ''
            : `${figureWords(picture.name, interval[0])} to ${figureWords(picture.name, interval[1])}`,
          String(takes),
          cold ? 'cold' : 'warm',
          ...(picture.name === 'margin' ? [of] : []),
        ]),
      );
  }
}

function table(
  { title }: Picture,
  heads: readonly string[],
  rows: readonly (readonly string[])[],
): TemplateResult {
  return html`<table>
    <caption>
      ${title}
    </caption>
    <thead>
      <tr>
        ${heads.map((head) => html`<th scope="col">${head}</th>`)}
      </tr>
    </thead>
    <tbody>
      ${rows.map(
        ([label, ...cells]) =>
          html`<tr>
            <th scope="row">${label}</th>
            ${cells.map((words) => html`<td>${words}</td>`)}
          </tr>`,
      )}
    </tbody>
  </table>`;
}

/** With its 90 % interval, which lies as far to either side. */
function differenceWords(point: ChartPoint | null): string {
  if (point === null) return 'none';
  return `${signed(point.median, 1)} dB, give or take ${fixed(point.spread, 1)}, from ${point.n} strokes each`;
}

function pointWords(point: ChartPoint | null, unit: ChartUnit): string {
  if (point === null) return 'none';
  const from = `from ${point.n} strokes`;
  if (unit === 'margin') return `${signed(point.median, 2)}, ${from}`;
  const middle = unit === 'dB' ? fixed(point.median, 1) : signed(point.median, 0);
  return `${middle} ${unit}, spread ${fixed(point.spread, 1)}, ${from}`;
}
