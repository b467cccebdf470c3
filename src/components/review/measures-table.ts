import { html, nothing, type TemplateResult } from 'lit';
import { measureKeys, measureOrder, type MeasureKey } from '../../grading/measures';
import type { Measures, Report } from '../../grading/types';
import { figureWords, measureAim, measureName } from '../../grading/words';
import { numberAsked, type NumberAsked } from '../../insight/strokes-behind';
import { figuresOf, type NamedFigure } from '../../grading/figures/named-figures';
import { numberWords } from './measure-words';
import { numberButton, type Ask } from './number-button';

import { verdict } from './verdict';

/** Every figure of a report: by measure, of the take, of each variation and of each hand. */
export function measuresTable(report: Report, ask: Ask): TemplateResult {
  const groups: readonly (readonly [string, Measures, NumberAsked['of']])[] = [
    ['whole take', report.measures, { kind: 'take' }],
    ...report.variations.map(({ name, measures }) => [name, measures, { kind: 'variation', name }] as const),
    ['right hand', report.perHand.R.measures, { kind: 'hand', hand: 'R' }],
    ['left hand', report.perHand.L.measures, { kind: 'hand', hand: 'L' }],
  ];
  return html`<table class="all">
    <caption class="visually-hidden">
      All measures
    </caption>
    <thead>
      <tr>
        <th scope="col">measure</th>
        <th scope="col">of</th>
        <th scope="col" class="number">value</th>
        <th scope="col" class="number">90 % interval</th>
        <th scope="col" class="number">strokes</th>
        <th scope="col">verdict</th>
      </tr>
    </thead>
    ${measureKeys.map((key) => {
      const rows = groups.flatMap(([of, measures, scope]) =>
        figuresOf(measures, key).map((named) => ({ of, named, scope })),
      );
      if (rows.length === 0) return nothing;
      return html`<tbody>
        ${rows.map(
          ({ of, named, scope }, index) =>
            html`<tr>
              ${
                index === 0
                  ? html`<th scope="rowgroup" rowspan=${rows.length}>
                      ${measureName(key)}${aimOf(key, report)}
                    </th>`
                  : nothing
              }
              ${cells(of, named, () => ask(numberAsked(named, scope)))}
            </tr>`,
        )}
      </tbody>`;
    })}
  </table>`;
}

function cells(of: string, { key, part, figure }: NamedFigure, press: () => void): TemplateResult {
  const { value, interval, n, band } = figure;
  const unit = part === null ? '' : ` ${part}`;
  const number = (one: number): string => numberWords(key, part, one) + unit;
  const words = part === null ? figureWords(key, figure) : value === null ? '' : number(value);
  return html`<td>${of}</td>
    <td class="number">
      ${value === null ? nothing : numberButton(words, `${measureName(key)} of ${of}`, press)}
    </td>
    <td class="number">
      ${interval === null ? nothing : `${number(interval[0])} to ${number(interval[1])}`}
    </td>
    <td class="number">${n.join(' / ')}</td>
    <td>${band === undefined ? html`<span class="quiet">no verdict</span>` : verdict(band)}</td>`;
}

/** Where a judged measure holds, under its name. */
function aimOf(key: MeasureKey, report: Report) {
  const judged = measureOrder.find((one) => one === key);
  if (judged === undefined) return nothing;
  return html`<br /><span class="quiet">${measureAim(judged, report.settings, report.heights)}</span>`;
}
