import type { Settings } from '../../settings';
import type { Part } from './figure';
import type { Limit } from './limit';
import type { JudgedKey, LimitAt } from '../measures';
import { judgedFigureOf } from './named-figures';

export type { Limit } from './limit';

/**
 * The limit in force, which the measure's own file gives.
 * @param at what it may go by: the gap between slots, the value judged, the rig's heights
 * @param part of a measure with two figures: which
 * @example limitOf('scatter', settingsOf('working'), { gapMs: 150 }).holds // => 12
 * @example limitOf('flamGap', settingsOf('working'), { gapMs: 150, value: 20 }).holds // => 15
 * @example limitOf('doubleGap', settingsOf('working'), { gapMs: 100 }).holds // => 8
 */
export function limitOf(key: JudgedKey, settings: Settings, at: LimitAt, part: Part | null = null): Limit {
  return judgedFigureOf(key, part).limit(settings, at);
}
