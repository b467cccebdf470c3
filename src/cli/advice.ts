import { giveawayWords } from '../grading/apart/words';
import type { NotTold } from '../grading/apart/apartness';
import type { Ceiling } from '../insight/ceiling/ceiling';
import type { Change } from '../insight/ceiling/change';
import { progressOf, type Before } from '../insight/ceiling/progress';
import { barsTried } from '../sessions/take-bars';
import { listed } from '../text';
import { awayWords, ceilingWords, changeWords, limiting } from '../insight/ceiling/words';
import { dateOf, dayOf } from '../insight/history/weeks';
import { giveawayOf, type Giveaway } from '../grading/apart/giveaway';
import { identificationOf, type Identification } from '../grading/apart/identification';
import { chosenOf } from '../grading/chosen';
import { CHOSEN } from '../words/findings';
import { remedyOf, type CeilingTempos, type Remedy } from '../grading/remedy/remedy';
import { rigRemedyOf, type RigRemedy } from '../grading/remedy/rig-remedy';
import { slowestBpm } from '../exercises/tempo';
import { count } from '../words/numbers';
import type { Report } from '../grading/types';
import { phraseKeyOf, rigIdOf } from '../sessions/take-record';
import type { Take } from '../sessions/types';
import { playerKey } from './players';

/** A take with its file's name and its report. */
export interface GradedFile {
  readonly file: string;
  readonly take: Take;
  readonly report: Report;
}

/** Ceilings of one player's phrase on one rig, over all files that have it. */
export interface PhraseCeilings {
  readonly player: string;
  readonly phrase: string;
  readonly files: readonly string[];
  /** That of its weakest variation. */
  readonly ceiling: Ceiling;
  readonly change: Change;
  readonly weakest: string | null;
  /** Dates of the first bar and the last since the last absence of over three weeks; null where no bar was tried. */
  readonly days: readonly [string, string] | null;
  /** How it stood before that absence; null where there was none. */
  readonly before: (Omit<Before, 'lastDay'> & { readonly lastDay: string }) | null;
  readonly variations: readonly {
    readonly name: string;
    readonly ceiling: Ceiling;
    readonly change: Change;
  }[];
}

/** What stands beside a report under `--json --advice`. */
interface Advice {
  readonly file: string;
  /** What to see to on the rig first; null where nothing of it stands in the way. */
  readonly rig: RigRemedy | null;
  /** Null where nothing is to be mended. */
  readonly remedy: Remedy | null;
  readonly giveaway: Giveaway | NotTold;
  readonly identification: Identification | NotTold;
}

/** Ceilings over the files, a player, a phrase and a rig at a time; *now* is the newest take of each. */
export function ceilingsOver(files: readonly GradedFile[]): readonly PhraseCeilings[] {
  const groups = new Map<string, GradedFile[]>();
  // What the teacher can play says nothing of a player's ceiling.
  for (const one of files.filter(({ take }) => take.teacher !== true))
    groups.set(keyOf(one.take), [...(groups.get(keyOf(one.take)) ?? []), one]);
  return [...groups.values()].map((group) => {
    const bars = group.flatMap(({ take, report }) => {
      const at = Math.floor(dayOf(take.recordedAt, 0));
      const day = Number.isFinite(at) ? at : 0;
      return barsTried(report, take.phrase, take.tempo).map(({ held, ...row }) => ({
        ...row,
        clean: held,
        day,
      }));
    });
    const { ceiling, change, weakest, variations, before, days } = progressOf(bars);
    const { phrase, player } = group[0].take;
    return {
      player,
      phrase: phrase.title,
      files: group.map(({ file }) => file),
      ceiling,
      change,
      weakest,
      days: days === null ? null : [dateOf(days[0]), dateOf(days[1])],
      before: before === null ? null : { ...before, lastDay: dateOf(before.lastDay) },
      variations: [...variations].map(([name, one]) => ({ name, ceiling: one.ceiling, change: one.change })),
    };
  });
}

/**
 * Ceilings as lines: the phrase, then each variation, the weak bar, and absence.
 * @param today a moment, ISO 8601
 */
export function ceilingLines(all: readonly PhraseCeilings[], today: string): string[] {
  const players = new Set(all.map(({ player }) => player));
  return all.flatMap((one) => {
    const { player, phrase, files, ceiling, change, weakest, variations } = one;
    const whole = 'the phrase';
    const width = Math.max(...variations.map(({ name }) => name.length), whole.length);
    const rows = [{ name: whole, ceiling, change }, ...variations];
    return [
      `Ceiling of ${phrase}${players.size > 1 && player !== '' ? `, ${player}` : ''}, from ${count(files.length, 'take')}`,
      ...rows.map((row) => `  ${row.name.padEnd(width)}  ${ceilingWords(row.ceiling)}${changed(row.change)}`),
      ...limitingLine(weakest, variations),
      ...away(one, today).map((words) => `  ${words}`),
      '',
    ];
  });
}

/** Not called the weak bar: a take's sentence may name another by what it finds there. */
function limitingLine(weakest: string | null, variations: PhraseCeilings['variations']): readonly string[] {
  const names = limiting(
    weakest,
    variations.map((one) => [one.name, one]),
  );
  return names.length === 0 ? [] : [`  The phrase’s ceiling is that of ${listed(names)}.`];
}

function away({ days, before }: PhraseCeilings, today: string): readonly string[] {
  if (days === null) return [];
  const words = awayWords(
    {
      days: [dayOf(days[0], 0), dayOf(days[1], 0)],
      before: before === null ? null : { ...before, lastDay: dayOf(before.lastDay, 0) },
    },
    dayOf(today, 0),
  );
  return words === '' ? [] : [words];
}

const changed = (change: Change): string => (change.kind === 'not enough' ? '' : `; ${changeWords(change)}`);

/** Remedy, giveaway and identification rate of a take. */
export function adviceOf({ file, take, report }: GradedFile, ceilings: readonly PhraseCeilings[]): Advice {
  const tempos = temposOf(ceilings.find(({ files }) => files.includes(file)));
  const chosen = chosenOf(report, take.first);
  return {
    file,
    rig: chosen === undefined ? (rigRemedyOf(report) ?? null) : null,
    remedy: remedyOf(report, take.phrase, slowestBpm(take.tempo), tempos, chosen) ?? null,
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
  const chosen = chosenOf(report, take.first);
  const remedy = remedyOf(report, take.phrase, slowestBpm(take.tempo), tempos, chosen);
  const giveaway = giveawayOf(report, take.phrase, take.tempo);
  const isShown = giveaway.kind === 'told' || giveaway.because === 'too few cycles';
  const rig = chosen === undefined ? rigRemedyOf(report) : undefined;
  return [
    ...(chosen === undefined ? [] : ['', `${CHOSEN} ${chosen.sentence}`]),
    ...(rig === undefined ? [] : ['', `${rig.sentence} That is ${rig.purpose}. ${rig.done}`]),
    ...(remedy === undefined
      ? []
      : ['', `${remedy.sentence}`, `That is ${remedy.purpose}. ${remedy.stop.words}`]),
    ...(isShown ? ['', giveawayWords(giveaway)] : []),
  ];
}

function temposOf(known: PhraseCeilings | undefined): CeilingTempos {
  return Object.fromEntries(
    (known?.variations ?? []).flatMap(({ name, ceiling }) =>
      ceiling.kind === 'at' ? [[name, ceiling.clean.value]] : [],
    ),
  );
}

/** A ceiling carries over to no other player, phrase or rig. */
const keyOf = (take: Take): string => `${phraseKeyOf(take.phrase)} ${rigIdOf(take.rig)} ${playerKey(take)}`;
