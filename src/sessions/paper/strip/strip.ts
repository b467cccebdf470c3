import { isFault } from '../../../grading/verdict';
import { gridOf } from '../../../exercises/grid';
import type { GridBar, Phrase, Slot } from '../../../exercises/types';
import { bandsOfReport, outsideDb, slotBand, type LevelBand } from '../../../grading/facts/level-bands';
import { isAsDue } from '../../../grading/facts/facts';
import { distributionOf, madSpread, median } from '../../../grading/numbers/statistics';
import type { VariationBand, Report, SlotReport } from '../../../grading/types';
import type { Db } from '../../../units';
import { linesOf, type HeightLines } from './axis';
import { columnsOf, type Column } from './columns';

/** What was played at one slot of a variation's bar, over all its passes. */
export interface StripSlot {
  /** Fractions of the bar's width. */
  readonly x: number;
  readonly width: number;
  readonly slot: Slot;
  readonly band: LevelBand;
  /** Median level and 1.4826·MAD, dB; null where nothing was matched. */
  readonly levelDb: Db | null;
  readonly spreadDb: Db;
  /** How far the median lies outside its band, dB; 0 inside. */
  readonly outsideDb: Db;
  /** Passes in which it was due and nothing answered. */
  readonly missed: number;
  /** True at every place of the named fault; the first of them carries the number. */
  readonly named: boolean;
}

/** A variation's bar as it was played: what the strip draws. */
export interface Strip {
  readonly variation: string;
  readonly band: VariationBand;
  readonly supported: number | null;
  readonly columns: readonly Column[];
  /** Beats of the bar, for its rules. */
  readonly beats: number;
  readonly slots: readonly StripSlot[];
  readonly lines: HeightLines;
  /** The report's own figure at the first named slot, in words; null where the report names none here. */
  readonly figure: string | null;
}

/** Tempo of a grid of which only the order counts. */
const ANY_TEMPO = { bpm: 60 };

/**
 * A strip for each variation of the phrase, in its order: each slot's median and spread over the passes, in the band of
 * the limits in force, and a caret at every place of the fault that the report names. Nothing is judged here.
 * @param figure the words of the named figure, as the sentence has them
 */
export function stripsOf(report: Report, phrase: Phrase, figure: string | null): readonly Strip[] {
  const grid = gridOf(phrase, ANY_TEMPO, 0, phrase.bars.length);
  const bands = bandsOfReport(report);
  const lines = report.heights ?? linesOf(report.settings);
  const passes = passesOf(report);
  return report.variations.flatMap(({ name, band, supported }): readonly Strip[] => {
    const bar = grid.bars.find(({ variation, role }) => variation === name && role === 'play');
    if (bar === undefined) return [];
    const columns = columnsOf(bar, grid.slots);
    const named = namedPlaces(report, name, bar, grid.slots);
    const slots = columns.flatMap((column) =>
      column.slots.map((slot, at): StripSlot => {
        const width = column.width / column.slots.length;
        const own = passes.get(keyOf(name, slot.slot)) ?? [];
        const levels = distributionOf(own.flatMap(levelOf));
        const levelDb = median(levels) ?? null;
        const due = slotBand(slot, bands);
        return {
          x: column.x + at * width,
          width,
          slot,
          band: due,
          levelDb,
          spreadDb: madSpread(levels) ?? 0,
          outsideDb: levelDb === null ? 0 : outsideDb(levelDb, due),
          missed: own.filter(({ status }) => status === 'missed').length,
          named: named.has(slot.slot),
        };
      }),
    );
    const first = named.size === 0 ? null : figure;
    return [{ variation: name, band, supported, columns, beats: bar.beats, slots, lines, figure: first }];
  });
}

const keyOf = (variation: string, slot: number): string => `${slot} ${variation}`;

function passesOf({ slots, bars }: Report): ReadonlyMap<string, readonly SlotReport[]> {
  const passes = new Map<string, SlotReport[]>();
  for (const slot of slots) {
    const key = keyOf(bars[slot.bar]?.variation ?? '', slot.slot);
    const own = passes.get(key);
    if (own === undefined) passes.set(key, [slot]);
    else own.push(slot);
  }
  return passes;
}

/** Strokes that are the player's at this slot: there, by the hand and on the drum that were due. */
function levelOf(slot: SlotReport): readonly Db[] {
  return isAsDue(slot) && slot.level !== null ? [slot.level] : [];
}

/** None where the whole phrase has the fault; else the named slot, and each other slot of the bar at the same place of the pattern, of the same hand. */
function namedPlaces(
  { weakest, variations }: Report,
  variation: string,
  bar: GridBar,
  slots: readonly Slot[],
): ReadonlySet<number> {
  const band = variations.find(({ name }) => name === variation)?.band;
  if (weakest === null || weakest.variation !== variation || weakest.slot === null || !isFault(band))
    return new Set();
  // What all variations have is no place of one of them.
  if (variations.length > 1 && weakest.scope !== 'variation' && weakest.scope !== 'variations')
    return new Set();
  const own = slots.slice(bar.firstSlot, bar.firstSlot + bar.slots);
  const first = own.find(({ slot }) => slot === weakest.slot);
  if (first === undefined) return new Set();
  return new Set(
    own.filter(({ place, hand }) => place === first.place && hand === first.hand).map(({ slot }) => slot),
  );
}
