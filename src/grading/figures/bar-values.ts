import type { GridBar, Kind } from '../../exercises/types';
import type { Settings } from '../../settings';
import type { Hand } from '../../stroke';
import { who } from '../evidence/codes';
import type { Evidence } from '../evidence/evidence';
import { graceGapMs, gracesBySlot } from './grace-gaps';
import { linesIn } from '../evidence/heights';
import type { BarValue, InBar } from '../measures/measure';
import { doublePercent } from '../evidence/movement';
import { fact, type CarriedTerm } from '../facts/phrase-facts';
import { isAccent, isByItsHand, isStruck, ofKinds } from './stroke-groups';
import { onWrongSurface } from '../evidence/wrong-surface';
import { mean, median } from '../../ordered';

/** Half-way between *holds* and *not yet*: of what a bar has few strokes of. */
const halfWay = (settings: Settings): number => settings['clean.leastMargin'];
/** The *not yet* limit itself: of what compares hands, which a single bar tells but roughly. */
const notBeyond = (settings: Settings): number => settings['clean.leastMarginHands'];

const hands: readonly Hand[] = ['R', 'L'];

/** The slots of a bar that are so, by their index. An hour has 1,800 bars, each asked for a dozen measures: one loop. */
export function slotsIn({ firstSlot, slots }: GridBar, isSo: (i: number) => boolean): readonly number[] {
  const found: number[] = [];
  for (let i = firstSlot; i < firstSlot + slots; i++) if (isSo(i)) found.push(i);
  return found;
}

/**
 * A term of the soft-stroke model in a bar, a hand at a time: mean of the partial residuals of the strokes that carry it
 * (level less the model without the term), dB. From two strokes on.
 */
export function termInBar(term: CarriedTerm): InBar {
  return {
    leastMargin: halfWay,
    values: (evidence) => {
      const { facts, models, graded } = evidence;
      const fewest = graded.settings['few.ofTermInBar'];
      const told = hands.flatMap((hand) => {
        const estimate = models[hand].fit?.terms[term];
        return estimate === null || estimate === undefined ? [] : [{ hand, termDb: estimate.value }];
      });
      return (bar) => {
        const carriers = slotsIn(bar, (i) => (facts[i] & fact[term]) !== 0 && !isAccent(evidence, i));
        if (carriers.length < fewest) return [];
        return told.flatMap(({ hand, termDb }) => {
          const own = carriers.filter((i) => evidence.who[i] === who[hand]);
          const partial = own.map((i) => models.residualDb[i] + termDb);
          return meanOf(partial, fewest).map((one) => ({ ...one, hand }));
        });
      };
    },
  };
}

/**
 * How late the second notes of a bar's doubles come, % of the time between their notes, from three doubles on. The time
 * model's term with the bar's own residuals, so that a swing is no wide double; where the take is too short for a model,
 * the plain mean against nominal.
 */
export const doublesInBar: InBar = {
  leastMargin: halfWay,
  values: (evidence) => {
    const { model, residualMs } = evidence.time;
    const { slots } = evidence.graded.grid;
    const term = model?.second?.value;
    const fewest = evidence.graded.settings['few.gapsInBar'];
    return (bar) => {
      if (model?.second === null) return [];
      const isSecond = (i: number): boolean =>
        (evidence.facts[i] & fact.double) !== 0 && isByItsHand(evidence, i) && isByItsHand(evidence, i - 1);
      const seconds = slotsIn(bar, isSecond);
      if (seconds.length < fewest) return [];
      const gapMs = mean(seconds.map((i) => slots[i].atMs - slots[i - 1].atMs)) ?? 0;
      const plain = seconds.map((i) => doublePercent(evidence, i));
      if (term === undefined) return meanOf(plain, fewest, gapMs);
      const others = slotsIn(bar, (i) => !isSecond(i));
      const residualOf = (of: readonly number[]): number[] =>
        of.map((i) => residualMs[i]).filter((residual) => !Number.isNaN(residual));
      const [own, beside] = [residualOf(seconds), mean(residualOf(others))];
      if (beside === undefined) return [];
      const percent = own.map((residual) => (100 * (term + residual - beside)) / gapMs);
      return meanOf(percent, fewest, gapMs);
    };
  },
};

/** Mean gap of a bar's graces, ms, from three on; `of` how many graces lead to the stroke, where only some count. */
export function gracesInBar(of: (graces: number) => boolean): InBar {
  return {
    leastMargin: halfWay,
    values: (evidence) => {
      const found = gracesBySlot(evidence);
      const { slots } = evidence.graded.grid;
      return (bar) => {
        const graced = slotsIn(bar, (i) => found.has(i) && of(slots[i].graces.length));
        const gaps = graced.flatMap((i) => graceGapMs(evidence, found, i) ?? []);
        return meanOf(gaps, evidence.graded.settings['few.gapsInBar']);
      };
    },
  };
}

/** Median right less median left of a bar's strokes of the kinds, on each class of surfaces, dB; four of a hand at least. */
export function balanceInBar(kindsOf: (evidence: Evidence) => readonly Kind[], needsTop: boolean): InBar {
  return {
    leastMargin: notBeyond,
    values: (evidence) => {
      const isOf = ofKinds(evidence, kindsOf(evidence));
      return (bar) => {
        if (needsTop && clips(evidence, bar)) return [];
        return evidence.surfaces.flatMap((_, surface): readonly BarValue[] => {
          const own = slotsIn(bar, (i) => evidence.surface[i] === surface && isOf(i));
          const [right, left] = hands.map((hand) =>
            own.filter((i) => evidence.who[i] === who[hand]).map((i) => evidence.levelDb[i]),
          );
          if (
            right.length < evidence.graded.settings['few.ofHandInBar'] ||
            left.length < evidence.graded.settings['few.ofHandInBar']
          )
            return [];
          return [{ value: middle(right) - middle(left), gapMs: 0 }];
        });
      };
    },
  };
}

/**
 * How much later the right hand comes in a bar, ms; four of a hand at least. The time model's term with the bar's own
 * residuals, so that a swing is no late hand; where the take is too short for a model, the plain difference of means.
 */
export const lagInBar: InBar = {
  leastMargin: notBeyond,
  values: (evidence) => {
    const { model, residualMs } = evidence.time;
    const term = model?.lag?.value;
    const times = term === undefined ? evidence.deviationMs : residualMs;
    return (bar) => {
      if (model?.lag === null) return [];
      const [right, left] = hands.map((hand) =>
        slotsIn(bar, (i) => evidence.who[i] === who[hand] && !Number.isNaN(times[i])).map((i) => times[i]),
      );
      if (
        right.length < evidence.graded.settings['few.ofHandInBar'] ||
        left.length < evidence.graded.settings['few.ofHandInBar']
      )
        return [];
      return [{ value: (term ?? 0) + (mean(right) ?? 0) - (mean(left) ?? 0), gapMs: 0 }];
    };
  },
};

/**
 * Median accent less median soft stroke in a bar, dB, on each class of surfaces; with learned heights the accents' median.
 * None where accents clip: the contrast may be more than can be told.
 */
export const contrastInBar: InBar = {
  leastMargin: () => 0,
  values: (evidence) => (bar) =>
    clips(evidence, bar)
      ? []
      : evidence.surfaces.flatMap((_, surface): readonly BarValue[] => {
          const { accents, softs } = levelsIn(evidence, bar, surface);
          if (accents.length === 0 || softs.length === 0) return [];
          const heights = linesIn(evidence, { surface });
          if (heights !== undefined) return [{ value: middle(accents), gapMs: 0, heights }];
          return [{ value: middle(accents) - middle(softs), gapMs: 0 }];
        }),
};

/** Root mean square of a bar's deviations about their places' means, ms, within 1.25 × the limit. */
export const scatterInBar: InBar = {
  leastMargin: (settings) => -(settings['clean.scatterFactor'] - 1) / (settings['scatter.notYetFactor'] - 1),
  values: (evidence) => (bar) => {
    const struck = slotsIn(bar, (i) => isStruck(evidence, i));
    if (struck.length === 0) return [];
    const { deviationMs, timing } = evidence;
    const squares = struck.map(
      (i) => (deviationMs[i] - timing.placeMeanMs(i)) * (deviationMs[i] - timing.placeMeanMs(i)),
    );
    const gapMs = mean(struck.map((i) => evidence.graded.grid.slots[i].gapMs)) ?? 0;
    return [{ value: Math.sqrt(mean(squares) ?? 0), gapMs }];
  },
};

/** Levels of a bar's accents and soft strokes on a class of surfaces, dB; strokes on a wrong drum left out. */
export function levelsIn(
  evidence: Evidence,
  bar: GridBar,
  surface: number,
): { readonly accents: readonly number[]; readonly softs: readonly number[] } {
  const { levelDb } = evidence;
  const own = slotsIn(
    bar,
    (i) => isStruck(evidence, i) && evidence.surface[i] === surface && !onWrongSurface(evidence.graded, i),
  );
  return {
    accents: own.filter((i) => isAccent(evidence, i)).map((i) => levelDb[i]),
    softs: own.filter((i) => !isAccent(evidence, i)).map((i) => levelDb[i]),
  };
}

const clips = (evidence: Evidence, { firstSlot }: GridBar): boolean =>
  evidence.clipping.touches({ variation: evidence.variation[firstSlot] });

function meanOf(values: readonly number[], fewest: number, gapMs = 0): readonly BarValue[] {
  const value = values.length < fewest ? undefined : mean(values);
  return value === undefined ? [] : [{ value, gapMs }];
}

const middle = (levels: readonly number[]): number => median(levels) ?? NaN;
