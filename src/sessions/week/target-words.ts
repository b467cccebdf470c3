import { dB, fixed, ms, percent, short } from '../../words/numbers';
import { measureName, measureUnit } from '../../grading/words';
import type { TargetMeasure, WeekTarget } from '../week-sheet';
import type { TargetOutcome } from './targets-met';
import { counted } from '../../text';

/**
 * A target as a teacher would write it.
 * @example targetWords({ kind: 'tempo', bpm: 92 }) // => 92 bpm, with four bars of five clean
 * @example targetWords({ kind: 'measure', measure: 'contrast', atLeast: 12 }) // => contrast at least 12 dB
 */
export function targetWords(target: WeekTarget): string {
  switch (target.kind) {
    case 'tempo':
      return `${short(target.bpm)} bpm, with four bars of five clean`;
    case 'holds':
      return target.variation === undefined ? 'every variation holds' : `${target.variation} holds`;
    case 'measure': {
      const { measure, variation, atMost, atLeast } = target;
      const whose = variation === undefined ? '' : ` in ${variation}`;
      const limit =
        atMost === undefined
          ? `at least ${limitWords(measure, atLeast ?? 0)}`
          : `at most ${limitWords(measure, atMost)}`;
      return `${measureName(measure)}${whose} ${limit}`;
    }
    case 'minutes':
      return `${counted(target.minutes, 'minute')} of playing`;
  }
}

/** What became of a target, with the nearest that a take came: "contrast at least 12 dB: not met, 9.4 dB". */
export function outcomeWords({ target, outcome, best }: TargetOutcome): string {
  const nearest = best === null ? '' : `, ${bestWords(target, best)}`;
  return `${targetWords(target)}: ${outcome}${nearest}`;
}

function bestWords(target: WeekTarget, best: number): string {
  switch (target.kind) {
    case 'tempo':
      return `${short(best)} bpm`;
    case 'holds':
      return '';
    case 'measure':
      return valueWords(target.measure, best);
    case 'minutes':
      return `${fixed(best, best < 10 ? 1 : 0)} min`;
  }
}

function valueWords(measure: TargetMeasure, value: number): string {
  if (measure === 'complete') return percent(100 * value, 1);
  if (measure === 'clarity') return fixed(value, 3);
  switch (measureUnit(measure)) {
    case 'dB':
      return dB(value);
    case 'ms':
      return ms(value);
    default:
      return percent(value);
  }
}

function limitWords(measure: TargetMeasure, limit: number): string {
  if (measure === 'complete') return `${short(100 * limit)} %`;
  const unit = measureUnit(measure);
  return unit === '' ? short(limit) : `${short(limit)} ${unit}`;
}
