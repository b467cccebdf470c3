import { who } from '../evidence/codes';
import type { Evidence } from '../evidence/evidence';
import { countedSlots, termsOf } from './facts';
import { graceGapsMs, gracesBySlot } from '../figures/grace-gaps';
import type { Counting } from './slot-facts';
import type { Measures, SlotReport } from '../types';
import { onWrongSurface } from '../evidence/wrong-surface';

type Writable<Read> = { -readonly [Key in keyof Read]: Read[Key] };

/**
 * Every slot over the whole take, in grid order, with what became of it and what grading decided of it; levels dB,
 * deviations ms, negative early. An hour has 30,000: each is made in one piece.
 * @param of the measures of the take and of its variations: strokes count for those that there are
 */
export function slotReports(
  evidence: Evidence,
  of: readonly Measures[],
): { readonly slots: readonly SlotReport[]; readonly counting: readonly Counting[] } {
  const { graded, surfaces, surface, levelDb, facts, who: by } = evidence;
  const { grid, alignment, strokes } = graded;
  const { counting, counts } = countedSlots(evidence, of);
  const graces = gracesBySlot(evidence);
  const slots = grid.slots.map(({ bar, slot, hand, kind }, i): SlotReport => {
    const outcome = alignment.outcomes[i];
    const { status } = outcome;
    const stroke = 'stroke' in outcome ? outcome.stroke : null;
    const report: Writable<SlotReport> = {
      bar,
      slot,
      hand,
      kind,
      level: stroke === null ? null : strokes[stroke].levelDb,
      deviationMs: 'deviationMs' in outcome ? outcome.deviationMs : null,
      status,
      judgedLevel: by[i] === who.none ? null : levelDb[i],
    };
    const terms = termsOf(facts[i]);
    if (terms.length > 0) report.terms = terms;
    const among = surfaces[surface[i]];
    if (surfaces.length > 1 && among !== null) report.surface = among;
    if (graces.size > 0) {
      const gaps = graceGapsMs(evidence, graces, i);
      if (gaps.length > 0) report.graceGapsMs = gaps;
    }
    if (counts[i] >= 0) report.counts = counts[i];
    if (outcome.status === 'matched' && outcome.wrongHand) report.wrongHand = true;
    else if (onWrongSurface(graded, i)) report.wrongSurface = true;
    return report;
  });
  return { slots, counting };
}
