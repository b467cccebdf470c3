import type { GridBar, Kind } from '../../exercises/types';
import type { Settings } from '../../settings';
import type { Hand } from '../../stroke';
import { kindCode, soft, who } from '../evidence/codes';
import type { Evidence } from '../evidence/evidence';
import { graceGapMs, gracesBySlot } from './grace-gaps';
import { linesIn } from '../evidence/heights';
import type { BarValue, InBar } from '../measures/measure';
import { doublePercent } from '../evidence/movement';
import { fact, type CarriedTerm } from '../facts/phrase-facts';
import { distributionOf, median } from '../numbers/statistics';
import { isAccent, isByItsHand, isStruck } from './stroke-groups';
import { onWrongSurface } from '../evidence/wrong-surface';
import { mean } from '../../ordered';

/** Half-way between *holds* and *not yet*: of what a bar has few strokes of. */
const halfWay = (settings: Settings): number => settings['clean.leastMargin'];
/** The *not yet* limit itself: of what compares hands, which a single bar tells but roughly. */
const notBeyond = (settings: Settings): number => settings['clean.leastMarginHands'];

const hands: readonly Hand[] = ['R', 'L'];

/** The slots of a bar, by their index. */
export function slotsOf({ firstSlot, slots }: GridBar): readonly number[] {
  return Array.from({ length: slots }, (_, slot) => firstSlot + slot);
}

/**
 * A term of the soft-stroke model in a bar, a hand at a time: mean of the partial residuals of the strokes that carry it
 * (level less the model without the term), dB. From two strokes on.
 */
export function termInBar(term: CarriedTerm): InBar {
  return {
    leastMargin: halfWay,
    values: (evidence) => (bar) =>
      hands.flatMap((hand) => {
        const estimate = evidence.models[hand].fit?.terms[term];
        if (estimate === null || estimate === undefined) return [];
        const partial = slotsOf(bar).flatMap((i) => {
          const carries = (evidence.facts[i] & fact[term]) !== 0 && evidence.who[i] === who[hand];
          return carries && !isAccent(evidence, i) ? evidence.models.residualDb[i] + estimate.value : [];
        });
        return meanOf(partial, evidence.graded.settings['few.ofTermInBar']).map((one) => ({ ...one, hand }));
      }),
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
    return (bar) => {
      if (model?.second === null) return [];
      const isSecond = (i: number): boolean =>
        (evidence.facts[i] & fact.double) !== 0 && isByItsHand(evidence, i) && isByItsHand(evidence, i - 1);
      const seconds = slotsOf(bar).filter(isSecond);
      const gapMs = mean(seconds.map((i) => slots[i].atMs - slots[i - 1].atMs)) ?? 0;
      const plain = seconds.map((i) => doublePercent(evidence, i));
      if (term === undefined) return meanOf(plain, evidence.graded.settings['few.gapsInBar'], gapMs);
      const others = slotsOf(bar).filter((i) => !isSecond(i));
      const residualOf = (of: readonly number[]): number[] =>
        of.map((i) => residualMs[i]).filter((residual) => !Number.isNaN(residual));
      const [own, beside] = [residualOf(seconds), mean(residualOf(others))];
      if (beside === undefined) return [];
      const percent = own.map((residual) => (100 * (term + residual - beside)) / gapMs);
      return meanOf(percent, evidence.graded.settings['few.gapsInBar'], gapMs);
    };
  },
};

/** Mean gap of a bar's graces, ms, from three on; `of` how many graces lead to the stroke, where only some count. */
export function gracesInBar(of: (graces: number) => boolean): InBar {
  return {
    leastMargin: halfWay,
    values: (evidence) => {
      const found = gracesBySlot(evidence);
      return (bar) => {
        const gaps = slotsOf(bar).flatMap((i) =>
          of(evidence.graded.grid.slots[i].graces.length) ? (graceGapMs(evidence, found, i) ?? []) : [],
        );
        return meanOf(gaps, evidence.graded.settings['few.gapsInBar']);
      };
    },
  };
}

/** Median right less median left of a bar's strokes of the kinds, on each class of surfaces, dB; four of a hand at least. */
export function balanceInBar(kindsOf: (evidence: Evidence) => readonly Kind[], needsTop: boolean): InBar {
  return {
    leastMargin: notBeyond,
    values: (evidence) => (bar) => {
      if (needsTop && clips(evidence, bar)) return [];
      const codes = kindsOf(evidence).map((kind) => kindCode[kind]);
      return evidence.surfaces.flatMap((_, surface): readonly BarValue[] => {
        const [right, left] = hands.map((hand) =>
          slotsOf(bar)
            .filter((i) => evidence.who[i] === who[hand] && evidence.surface[i] === surface)
            .filter((i) => codes.includes(evidence.kind[i]))
            .map((i) => evidence.levelDb[i]),
        );
        if (
          right.length < evidence.graded.settings['few.ofHandInBar'] ||
          left.length < evidence.graded.settings['few.ofHandInBar']
        )
          return [];
        return [{ value: middle(right) - middle(left), gapMs: 0 }];
      });
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
        slotsOf(bar)
          .filter((i) => evidence.who[i] === who[hand] && !Number.isNaN(times[i]))
          .map((i) => times[i]),
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
    const struck = slotsOf(bar).filter((i) => isStruck(evidence, i));
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
  const own = slotsOf(bar).filter(
    (i) => isStruck(evidence, i) && evidence.surface[i] === surface && !onWrongSurface(evidence.graded, i),
  );
  const softCodes = soft.map((kind) => kindCode[kind]);
  return {
    accents: own.filter((i) => isAccent(evidence, i)).map((i) => evidence.levelDb[i]),
    softs: own.filter((i) => softCodes.includes(evidence.kind[i])).map((i) => evidence.levelDb[i]),
  };
}

const clips = (evidence: Evidence, { firstSlot }: GridBar): boolean =>
  evidence.clipping.touches({ variation: evidence.variation[firstSlot] });

function meanOf(values: readonly number[], fewest: number, gapMs = 0): readonly BarValue[] {
  const value = values.length < fewest ? undefined : mean(values);
  return value === undefined ? [] : [{ value, gapMs }];
}

const middle = (levels: readonly number[]): number => median(distributionOf(levels)) ?? NaN;
