import type { Kind } from '../../exercises/types';
import { clippingOf, type Clipping } from './clipping';
import { kindCode, who, type Scope } from './codes';
import { columnsOf, dueRow, FACTS, type Columns } from './columns';
import type { Graded } from '../graded';
import { countLevels, type LevelCounts } from './level-counts';
import { movementOf, type Movement } from './movement';
import { softModelsOf, type SoftModels } from './soft-rows';
import { tallied, type Tallies } from './tally';
import { timeEvidenceOf, type TimeEvidence } from './time-evidence';
import { groupTiming, type TimingGroups } from './timing-groups';

/** All that the measures read: columns of the take, and what was counted and sorted from them once. */
export interface Evidence extends Columns {
  readonly levels: LevelCounts;
  readonly timing: TimingGroups;
  readonly clipping: Clipping;
  readonly movement: Movement;
  readonly models: SoftModels;
  readonly time: TimeEvidence;
  readonly tallies: Tallies;
}

export function gather(graded: Graded): Evidence {
  const columns = columnsOf(graded);
  return {
    ...columns,
    levels: countLevels(columns),
    timing: groupTiming(columns),
    clipping: clippingOf(columns),
    movement: movementOf(columns),
    models: softModelsOf(columns),
    time: timeEvidenceOf(columns),
    tallies: tallied(columns),
  };
}

/** How many slots of these kinds are due within the scope. */
export function dueOfKinds(evidence: Evidence, scope: Scope, kinds: readonly Kind[]): number {
  const { dueKind } = evidence;
  return sumOver(rowsOf(evidence, scope), (row) =>
    sumOver(kinds, (kind) => {
      const at = dueRow(evidence, row, kindCode[kind]);
      if (scope.surface !== undefined) return dueKind[at + scope.surface];
      return sumOver(evidence.surfaces, (_, surface) => dueKind[at + surface]);
    }),
  );
}

/**
 * The scope cut up by classes of surfaces: levels are compared within one only. Where the phrase has a single class (no
 * voicing, say) the scope itself.
 */
export function bySurface(evidence: Evidence, scope: Scope): readonly Scope[] {
  if (evidence.surfaces.length === 1) return [scope];
  return evidence.surfaces.map((_, surface) => ({ ...scope, surface }));
}

/** How many slots with this fact are due within the scope. */
export function dueOfFact(evidence: Evidence, scope: Scope, bit: number): number {
  const place = 31 - Math.clz32(bit);
  return sumOver(rowsOf(evidence, scope), (row) => evidence.dueFact[row * FACTS + place]);
}

/** Numbers of the variations in the scope. */
export function variationsOf(evidence: Evidence, scope: Scope): readonly number[] {
  return scope.variation === undefined ? evidence.names.map((_, v) => v) : [scope.variation];
}

/** Rows (variation, hand) of the tables of what is due. */
function rowsOf(evidence: Evidence, scope: Scope): number[] {
  const hands = scope.hand === undefined ? [who.R, who.L] : [who[scope.hand]];
  return variationsOf(evidence, scope).flatMap((v) => hands.map((hand) => v * 2 + hand));
}

function sumOver<Item>(items: readonly Item[], count: (item: Item, index: number) => number): number {
  return items.reduce((sum, item, index) => sum + count(item, index), 0);
}
