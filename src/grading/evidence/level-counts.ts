import type { Kind, StrokeType } from '../../exercises/types';
import { kindCode, typeCode, who, type Scope } from './codes';
import { KINDS, type Columns } from './columns';
import type { Distribution } from '../numbers/statistics';

/**
 * Levels counted once, by (variation, who struck, kind, type, class of surface): a surface reports at most 127 levels, so an hour of
 * strokes is a short list, and every median, spread and clarity is read from sums of these counts.
 */
export interface LevelCounts {
  /** Levels of the scope's strokes of these kinds (and of this type, where given). A hand's scope has no wrong hands. */
  select(scope: Scope, kinds: readonly Kind[], type?: StrokeType): Distribution;
}

const WHOS = 3;
const TYPES = 4;

export function countLevels(columns: Columns): LevelCounts {
  const { values, rank } = distinctLevels(columns.levelDb);
  const width = values.length;
  const variations = columns.names.length;
  const classes = columns.surfaces.length;
  const counts = new Int32Array(variations * WHOS * KINDS * TYPES * classes * width);
  for (let i = 0; i < rank.length; i++) {
    if (rank[i] < 0) continue;
    const row = (columns.variation[i] * WHOS + columns.who[i]) * KINDS + columns.kind[i];
    counts[((row * TYPES + columns.type[i]) * classes + columns.surface[i]) * width + rank[i]]++;
  }
  return {
    select(scope, kinds, type) {
      const sums = new Int32Array(width);
      const whos = scope.hand === undefined ? [who.R, who.L, who.wrong] : [who[scope.hand]];
      const types = type === undefined ? [0, 1, 2, 3] : [typeCode[type]];
      const first = scope.variation ?? 0;
      const last = scope.variation ?? variations - 1;
      for (let v = first; v <= last; v++) {
        for (const by of whos) {
          for (const kind of kinds) {
            for (const t of types) {
              const row = (((v * WHOS + by) * KINDS + kindCode[kind]) * TYPES + t) * classes;
              for (let surface = 0; surface < classes; surface++) {
                if (scope.surface !== undefined && scope.surface !== surface) continue;
                const start = (row + surface) * width;
                for (let level = 0; level < width; level++) sums[level] += counts[start + level];
              }
            }
          }
        }
      }
      return packed(values, sums);
    },
  };
}

/** Distinct levels, ascending, and for each slot the rank of its level; -1 where it has none. */
function distinctLevels(levelDb: Float64Array): { values: number[]; rank: Int32Array } {
  const ids = new Map<number, number>();
  const rank = new Int32Array(levelDb.length).fill(-1);
  for (let i = 0; i < levelDb.length; i++) {
    const level = levelDb[i];
    if (Number.isNaN(level)) continue;
    let id = ids.get(level);
    if (id === undefined) {
      id = ids.size;
      ids.set(level, id);
    }
    rank[i] = id;
  }
  const values = [...ids.keys()].sort((a, b) => a - b);
  const rankOfId = new Int32Array(ids.size);
  values.forEach((level, place) => {
    rankOfId[ids.get(level) ?? 0] = place;
  });
  for (let i = 0; i < rank.length; i++) if (rank[i] >= 0) rank[i] = rankOfId[rank[i]];
  return { values, rank };
}

function packed(levels: readonly number[], sums: Int32Array): Distribution {
  const values: number[] = [];
  const counts: number[] = [];
  let n = 0;
  for (let level = 0; level < levels.length; level++) {
    if (sums[level] === 0) continue;
    values.push(levels[level]);
    counts.push(sums[level]);
    n += sums[level];
  }
  return { values, counts, n };
}
