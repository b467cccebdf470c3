import type { Hand } from '../../stroke';
import { kindCode, who } from './codes';
import { KINDS, type Columns } from './columns';
import { carriedTerms, fact, type CarriedTerm } from '../facts/phrase-facts';
import { loudAllOver } from '../models/all-over';
import { softFit, type SoftFit, type SoftRow } from '../models/soft-model';
import { mean } from '../../ordered';

/** One hand's soft strokes of the whole take, fitted. */
interface HandModel {
  /** Their levels are less what their variation is loud or soft by all over: that is no leak. */
  readonly rows: readonly SoftRow[];
  /** By variation: how much louder its soft strokes are all over, dB; negative: softer. */
  readonly allOverDb: Float64Array;
  /** Index of the slot behind each row. */
  readonly slots: readonly number[];
  /** undefined where there are too few strokes for a fit. */
  readonly fit: SoftFit | undefined;
  /** Rows that carry each term, by variation. */
  readonly carriers: Readonly<Record<CarriedTerm, readonly (readonly number[])[]>>;
  /** Rows of each variation. */
  readonly ofVariation: readonly (readonly number[])[];
  /** Levels of each soft place, taps and ghosts apart, a place of each variation for itself. */
  readonly places: readonly SoftPlace[];
}

interface SoftPlace {
  readonly variation: number;
  /** Code of its kind. */
  readonly kind: number;
  readonly levelsDb: readonly number[];
  readonly meanDb: number;
}

export interface SoftModels extends Readonly<Record<Hand, HandModel>> {
  /** By slot: level less what the model of its hand expects, dB; NaN where there is no soft stroke or no fit. */
  readonly residualDb: Float64Array;
}

/** Each hand's model, what a variation is loud by all over taken off first; wrong hands and slipped slots are left out. */
export function softModelsOf(columns: Columns): SoftModels {
  const models = { R: handModel(columns, 'R'), L: handModel(columns, 'L') };
  const residualDb = new Float64Array(columns.kind.length).fill(NaN);
  for (const { slots, fit } of [models.R, models.L]) {
    if (fit) slots.forEach((slot, row) => (residualDb[slot] = fit.residuals[row]));
  }
  return { ...models, residualDb };
}

function handModel(columns: Columns, hand: Hand): HandModel {
  const { names, kind, facts, levelDb, variation, graded } = columns;
  const empty = (): number[][] => names.map(() => []);
  const carriers = { before: empty(), after: empty(), spill: empty(), second: empty() };
  const ofVariation = empty();
  const struck: SoftRow[] = [];
  const rowVariation: number[] = [];
  const slots: number[] = [];
  const places: { variation: number; kind: number; levelsDb: number[] }[] = [];
  const placeAt = new Map<number, number>();
  for (let i = 0; i < kind.length; i++) {
    if (columns.who[i] !== who[hand] || kind[i] === kindCode.accent) continue;
    for (const term of carriedTerms) {
      if ((facts[i] & fact[term]) !== 0) carriers[term][variation[i]].push(struck.length);
    }
    ofVariation[variation[i]].push(struck.length);
    rowVariation.push(variation[i]);
    struck.push({
      levelDb: levelDb[i],
      after: (facts[i] & fact.after) !== 0,
      before: (facts[i] & fact.before) !== 0,
      spill: (facts[i] & fact.spill) !== 0,
      second: (facts[i] & fact.second) !== 0,
    });
    slots.push(i);
    const key = (variation[i] * PLACES + graded.grid.slots[i].place) * KINDS + kind[i];
    const at = placeAt.get(key);
    if (at === undefined) {
      placeAt.set(key, places.length);
      places.push({ variation: variation[i], kind: kind[i], levelsDb: [levelDb[i]] });
    } else places[at].levelsDb.push(levelDb[i]);
  }
  const allOverDb = loudAllOver(struck, rowVariation, names.length, graded.settings['allOver.least']);
  const rows = struck.map((row, i) => ({ ...row, levelDb: row.levelDb - allOverDb[rowVariation[i]] }));
  return {
    rows,
    allOverDb,
    slots,
    fit: softFit(rows),
    carriers,
    ofVariation,
    places: places.map((place) => ({ ...place, meanDb: mean(place.levelsDb) ?? 0 })),
  };
}

/** More places than any bar has. */
const PLACES = 1 << 16;
