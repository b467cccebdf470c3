import { accentSpread } from './accent-spread';
import { accentStretch } from './accent-stretch';
import { arrival } from './arrival';
import { asynchrony } from './asynchrony';
import { balanceAccent } from './balance-accent';
import { balanceSoft } from './balance-soft';
import { clarity } from './clarity';
import { complete } from './complete';
import { contrast } from './contrast';
import { doubleGap } from './double-gap';
import { dragGap } from './drag-gap';
import { fade } from './fade';
import { feel } from './feel';
import { flamGap } from './flam-gap';
import { ghostContrast } from './ghost-contrast';
import { graceEvenness } from './grace-evenness';
import { graceHands } from './grace-hands';
import { graceSoftness } from './grace-softness';
import { lag } from './lag';
import { leakAfter } from './leak-after';
import { leakBefore } from './leak-before';
import { scatter } from './scatter';
import { seam } from './seam';
import { shape } from './shape';
import { softRange } from './soft-range';
import { softSpread } from './soft-spread';
import { softness } from './softness';
import { spill } from './spill';
import type { JudgedMeasure, Measure } from './measure';

export type { JudgedFigure, JudgedMeasure, LimitAt, LiveName, Measure, MeasureFigure } from './measure';

/** Measures with a verdict in teaching order: ties for the weakest go to the earlier. */
const judged = [
  complete,
  scatter,
  leakBefore,
  leakAfter,
  spill,
  softRange,
  softness,
  ghostContrast,
  contrast,
  clarity,
  fade,
  doubleGap,
  balanceSoft,
  balanceAccent,
  lag,
  arrival,
  feel,
  seam,
  graceEvenness,
  graceHands,
  flamGap,
  dragGap,
  graceSoftness,
  softSpread,
  accentSpread,
] as const;

/** Measures shown without a verdict. */
const plain = [asynchrony, shape, accentStretch] as const;

export type JudgedKey = (typeof judged)[number]['key'];
type PlainKey = (typeof plain)[number]['key'];
export type MeasureKey = JudgedKey | PlainKey;
/** Measures with two figures, one in ms and one in dB. */
export type PartedKey = Parted<(typeof judged)[number]>;
type Parted<One extends JudgedMeasure> = One extends JudgedMeasure<string, null> ? never : One['key'];

/** Every measure, those with a verdict first, in teaching order. */
export const measures: readonly (Measure & { readonly key: MeasureKey })[] = [...judged, ...plain];
export const judgedMeasures: readonly (JudgedMeasure & { readonly key: JudgedKey })[] = judged;
export const measureKeys: readonly MeasureKey[] = measures.map(({ key }) => key);
/** Keys of measures with a verdict, in teaching order. */
export const measureOrder: readonly JudgedKey[] = judged.map(({ key }) => key);

const byKey = new Map<MeasureKey, Measure>(measures.map((measure) => [measure.key, measure]));
const judgedByKey = new Map<JudgedKey, JudgedMeasure>(judged.map((measure) => [measure.key, measure]));

/** True of a measure with two figures. */
export function isParted(key: MeasureKey): key is PartedKey {
  return measureOf(key).figures.length > 1;
}

/** A measure by its key. */
export function measureOf(key: MeasureKey): Measure {
  return found(byKey, key);
}

/** A measure with a verdict by its key. */
export function judgedMeasureOf(key: JudgedKey): JudgedMeasure {
  return found(judgedByKey, key);
}

function found<Key, One>(of: ReadonlyMap<Key, One>, key: Key): One {
  const one = of.get(key);
  if (one === undefined) throw new Error(`no measure ${String(key)}`);
  return one;
}
