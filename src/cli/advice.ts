import { giveawayWords } from '../grading/apart/words';
import type { NotTold } from '../grading/apart/apartness';
import { ceilingOf, heldBarsOf, type Ceiling, type HeldBars } from '../insight/ceiling';
import { ceilingWords } from '../insight/ceiling-words';
import { giveawayOf, type Giveaway } from '../grading/apart/giveaway';
import { identificationOf, type Identification } from '../grading/apart/identification';
import { remedyOf, type CeilingTempos, type Remedy } from '../grading/remedy/remedy';
import { count } from '../grading/number-words';
import type { Report } from '../grading/types';
import { phraseKeyOf, rigIdOf } from '../sessions/take-record';
import type { Take } from '../sessions/types';
import type { Bpm } from '../units';

/** A take with its file's name and its report. */
export interface GradedFile {
  readonly file: string;
  readonly take: Take;
  readonly report: Report;
}

/** Ceilings of one phrase on one rig, over all files that have it. */
interface PhraseCeilings {
  readonly phrase: string;
  readonly files: readonly string[];
  readonly ceiling: Ceiling;
  readonly variations: readonly { readonly name: string; readonly ceiling: Ceiling }[];
}

/** What stands beside a report under `--json --advice`. */
interface Advice {
  readonly file: string;
  /** Null where nothing is to be mended. */
  readonly remedy: Remedy | null;
  readonly giveaway: Giveaway | NotTold;
  readonly identification: Identification | NotTold;
}

const DAY_MS = 86_400_000;

/** Ceilings over the files, a phrase and a rig at a time; ages count from the newest take of each. */
export function ceilingsOver(files: readonly GradedFile[]): readonly PhraseCeilings[] {
  const groups = new Map<string, GradedFile[]>();
  for (const one of files) groups.set(keyOf(one.take), [...(groups.get(keyOf(one.take)) ?? []), one]);
  return [...groups.values()].map((group) => {
    const newestMs = Math.max(...group.map(({ take }) => Date.parse(take.recordedAt)));
    const bars = group.flatMap(({ take, report }) => {
      const ageDays = (newestMs - Date.parse(take.recordedAt)) / DAY_MS;
      return heldBarsOf(report, take.phrase, take.tempo, Number.isFinite(ageDays) ? ageDays : 0);
    });
    return {
      phrase: group[0].take.phrase.title,
      files: group.map(({ file }) => file),
      ceiling: ceilingOf(bars),
      variations: namesOf(bars).map((name) => ({
        name,
        ceiling: ceilingOf(bars.filter(({ variation }) => variation === name)),
      })),
    };
  });
}

/** Ceilings as lines: the phrase, then each variation. */
export function ceilingLines(all: readonly PhraseCeilings[]): string[] {
  return all.flatMap(({ phrase, files, ceiling, variations }) => {
    const width = Math.max(...variations.map(({ name }) => name.length), 'all bars'.length);
    const rows = [{ name: 'all bars', ceiling }, ...variations];
    return [
      `Ceiling of ${phrase}, from ${count(files.length, 'take')}`,
      ...rows.map((row) => `  ${row.name.padEnd(width)}  ${ceilingWords(row.ceiling)}`),
      '',
    ];
  });
}

/** Remedy, giveaway and identification rate of a take. */
export function adviceOf({ file, take, report }: GradedFile, ceilings: readonly PhraseCeilings[]): Advice {
  const tempos = temposOf(ceilings.find(({ files }) => files.includes(file)));
  return {
    file,
    remedy: remedyOf(report, take.phrase, bpmOf(take), tempos) ?? null,
    giveaway: giveawayOf(report, take.phrase, take.tempo),
    identification: identificationOf(report, take.phrase, take.tempo),
  };
}

/** What to play next, and what gives a variation away, as lines; nothing where neither has anything to say. */
export function adviceLines(
  { take, report, file }: GradedFile,
  ceilings: readonly PhraseCeilings[],
): string[] {
  const tempos = temposOf(ceilings.find(({ files }) => files.includes(file)));
  const remedy = remedyOf(report, take.phrase, bpmOf(take), tempos);
  const giveaway = giveawayOf(report, take.phrase, take.tempo);
  const isSaid = giveaway.kind === 'told' || giveaway.because === 'too few cycles';
  return [
    ...(remedy === undefined
      ? []
      : ['', `${remedy.sentence}`, `That is ${remedy.purpose}. ${remedy.stop.words}`]),
    ...(isSaid ? ['', giveawayWords(giveaway)] : []),
  ];
}

function temposOf(known: PhraseCeilings | undefined): CeilingTempos {
  return Object.fromEntries(
    (known?.variations ?? []).flatMap(({ name, ceiling }) =>
      ceiling.kind === 'at' ? [[name, ceiling.clean.value]] : [],
    ),
  );
}

/** A ramp's slowest. */
function bpmOf({ tempo }: Take): Bpm {
  return 'bpm' in tempo ? tempo.bpm : Math.min(...tempo.ramp.map(({ bpm }) => bpm));
}

/** A ceiling carries over to neither another phrase nor another rig. */
const keyOf = ({ phrase, rig }: Take): string => `${phraseKeyOf(phrase)} ${rigIdOf(rig)}`;

const namesOf = (bars: readonly HeldBars[]): string[] => [...new Set(bars.map(({ variation }) => variation))];
