import { findingOf, type Finding } from '../grading/finding';
import { figureWords, measureName, measureUnit } from '../grading/words';
import type { Figure, JudgedKey, Report } from '../grading/types';
import { tempoPlayed } from '../exercises/tempo';
import { fixed } from '../words/numbers';
import type { GradedFile } from './advice';
import type { Group } from './grouped';
import { playerCodes, playerKey } from './players';
import { columnLines, csvText, rounded, type Cell, type Decimal } from './sheet';
import { shownName } from './shown';

/** One line a take, by player and phrase: day, player's code, phrase, bpm, clean bars, why, how much, file. */
export function summaryLines(groups: readonly Group<GradedFile>[]): readonly string[] {
  const codes = codesOf(groups);
  const head = ['day', 'player', 'phrase', 'bpm', 'clean bars', 'reason', 'value', 'file'];
  const rows = takesOf(groups).map((one) => {
    const { take, report, file } = one;
    const { bars, clean } = barsOf(report);
    return [
      dayOf(one),
      codes.get(playerKey(take)) ?? '',
      take.phrase.title,
      bpmsOf(one)
        .map((bpm) => fixed(bpm, 0))
        .join('–'),
      `${clean} of ${bars}`,
      reasonOf(report),
      valueWords(report),
      file,
    ].map(shownName);
  });
  return columnLines([head, ...rows]);
}

const HEAD = ['day', 'player', 'phrase', 'bpm', 'bpm to', 'bars', 'clean bars'];

/** The same for a spreadsheet, the reason in columns of its own. */
export function summaryCsv(groups: readonly Group<GradedFile>[], decimal: Decimal): string {
  const codes = codesOf(groups);
  const rows = takesOf(groups).map((one): Cell[] => {
    const { take, report, file } = one;
    const { bars, clean } = barsOf(report);
    const [from, to] = bpmsOf(one);
    const finding = findingOf(report);
    const found = figureOf(report);
    return [
      dayOf(one),
      codes.get(playerKey(take)),
      take.phrase.title,
      rounded(from, 1),
      to === undefined ? undefined : rounded(to, 1),
      rounded(bars, 0),
      rounded(clean, 0),
      finding === undefined ? reasonOf(report) : nameOf(finding),
      finding?.variation ?? undefined,
      found === undefined ? undefined : rounded(found.value, decimalsOf(found.unit)),
      found?.unit,
      file,
    ];
  });
  return csvText([[...HEAD, 'reason', 'variation', 'value', 'unit', 'file'], ...rows], decimal);
}

export const codesOf = (groups: readonly Group<GradedFile>[]): ReadonlyMap<string, string> =>
  playerCodes(takesOf(groups).map(({ take }) => take));

export const takesOf = (groups: readonly Group<GradedFile>[]): readonly GradedFile[] =>
  groups.flatMap(({ takes }) => takes);

export const dayOf = ({ take }: GradedFile): string => take.recordedAt.slice(0, 10);

/** The tempo, or the slowest and the fastest of one that moved; in free time the player's own. */
export function bpmsOf({ take, report }: GradedFile): readonly number[] {
  const tempo = tempoPlayed(take.tempo, report);
  if ('bpm' in tempo) return [tempo.bpm];
  let [slowest, fastest] = [Infinity, -Infinity];
  for (const { bpm } of tempo.ramp) {
    slowest = Math.min(slowest, bpm);
    fastest = Math.max(fastest, bpm);
  }
  return [slowest, fastest];
}

function barsOf(report: Report): { readonly bars: number; readonly clean: number } {
  const due = report.bars.filter(({ role }) => role === undefined);
  return { bars: due.length, clean: due.filter(({ clean }) => clean).length };
}

/** What is out first, and of what; else what happened to the take. */
function reasonOf(report: Report): string {
  if (!report.fits) return 'does not fit its grid';
  const finding = findingOf(report);
  if (finding === undefined) return report.course.at(0)?.kind ?? 'nothing';
  return `${nameOf(finding)}, ${finding.variation ?? 'the whole phrase'}`;
}

const nameOf = ({ reason }: Finding): string => (reason === 'slip' ? 'a slip' : measureName(reason));

interface Out {
  readonly key: JudgedKey;
  readonly figure: Figure;
  readonly value: number;
  readonly unit: string;
}

/** The figure of what is out; none of a slip. */
function figureOf(report: Report): Out | undefined {
  const finding = findingOf(report);
  const value = finding?.figure?.value;
  if (!finding?.figure || typeof value !== 'number' || finding.reason === 'slip') return undefined;
  const { reason, part, figure } = finding;
  return { key: reason, figure, value, unit: part ?? measureUnit(reason) };
}

function valueWords(report: Report): string {
  const found = figureOf(report);
  return found === undefined ? '' : figureWords(found.key, found.figure);
}

/** Levels and times to a tenth; a share without a unit to a thousandth. */
const decimalsOf = (unit: string): number => (unit === '' ? 3 : 1);
