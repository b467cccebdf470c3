import { isFault } from '../../grading/verdict';
import { html, nothing, type TemplateResult } from 'lit';
import type { JudgedKey, Report, VariationReport } from '../../grading/types';
import { figuresOf } from '../../grading/figures/named-figures';
import { measureName } from '../../grading/words';
import { marginPicture, marginScale } from './margin-picture';
import { judgedWords } from '../../words/measures';
import { cellWords, isUnjudged, mainColumns } from './measure-words';
import { capital } from '../shared/numbers';
import { numberAsked } from '../../insight/strokes-behind';
import { numberButton, type Ask } from './number-button';
import { verdict } from './verdict';

/** A row a variation: its margin drawn, its verdict, the main figures; the reason of each row stands out. */
export function variationsTable(report: Report, ask: Ask): TemplateResult {
  const columns = columnsOf(report);
  return html`<table class="variations">
    <caption class="visually-hidden">
      Variations
    </caption>
    <thead>
      <tr>
        <th scope="col">variation</th>
        <th scope="col" class="margins">${marginScale()}</th>
        <th scope="col">verdict</th>
        ${columns.map((key) => html`<th scope="col">${judgedWords[key].head ?? key}</th>`)}
      </tr>
    </thead>
    <tbody>
      ${report.variations.map(
        (variation) =>
          html`<tr>
            <th scope="row">${capital(variation.name)}</th>
            <td class="margins">${marginPicture(variation.supported)}</td>
            <td>${verdict(variation.band)}</td>
            ${columns.map((key) => cell(variation, key, ask))}
          </tr>`,
      )}
    </tbody>
  </table>`;
}

/** The main columns that have a figure, and the reasons' own and the chosen one's where they are others. */
function columnsOf(report: Report): readonly JudgedKey[] {
  const reasons = report.variations
    .filter((variation) => variation.band === 'not yet' || variation.band === 'close')
    .flatMap((variation) => variation.measure ?? []);
  const { weakest, others } = report;
  const chosen = weakest !== null && others.includes(weakest) ? [weakest.measure] : [];
  const wanted = [...mainColumns, ...reasons, ...chosen];
  return wanted.filter(
    (key, index) =>
      wanted.indexOf(key) === index &&
      report.variations.some((variation) =>
        figuresOf(variation.measures, key).some(({ figure }) => figure.value !== null),
      ),
  );
}

function cell(variation: VariationReport, key: JudgedKey, ask: Ask): TemplateResult {
  const figures = figuresOf(variation.measures, key);
  const isReason = variation.measure === key && isFault(variation.band);
  const off = figures.some(({ figure }) => figure.band === 'not yet');
  const few = figures.every(({ figure }) => isUnjudged(figure.band));
  const classes = [isReason ? 'reason' : '', off ? 'not' : '', few ? 'none' : ''].join(' ');
  const words = figures.map(
    ({ part, figure }) => cellWords(key, part, figure) + (part === null ? '' : ` ${part}`),
  );
  return html`<td class=${classes}>
    ${
      figures.length === 0
        ? nothing
        : numberButton(words.join(', '), `${measureName(key)} of ${variation.name}`, () =>
            ask(numberAsked(figures[0], { kind: 'variation', name: variation.name })),
          )
    }${off ? html`<span class="visually-hidden">, not yet</span>` : nothing}
  </td>`;
}
