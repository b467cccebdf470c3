import { tappedBpm, withTap } from '../click/tapping';
import { changedClick } from '../exercises/click-plan';
import { checkedBpm } from '../exercises/tempo';
import type { Ms } from '../units';
import { changedPlan, planFrom, plainPlan } from './playing-plan';
import { climbHeard } from './climb';
import { steadyPace } from './pace';
import { ownInput } from './bundled-input';
import { NO_CLICK, type PlanPart, type PlanSaid } from './plan-state';
import type { Sitting } from './state';

export const firstPlan: PlanPart = {
  plan: plainPlan,
  taps: [],
  tapOnPad: false,
  last: null,
  climb: null,
  rest: '',
};

/** The sitting after something was said of how takes are played. */
export function planHeard(sitting: Sitting, said: PlanSaid): Sitting {
  switch (said.kind) {
    case 'plan':
      return { ...sitting, plan: changedPlan(sitting.plan, said.change), problem: '' };
    case 'click':
      return {
        ...sitting,
        plan: { ...sitting.plan, click: changedClick(sitting.plan.click, said.change) },
        problem: '',
      };
    case 'kept plan':
      return { ...sitting, plan: planFrom(said.kept) };
    case 'tap':
      return tappedAt(sitting, said.atMs);
    case 'tap on pad':
      return { ...sitting, tapOnPad: said.on, taps: [] };
    case 'climb':
      return climbed(sitting, climbHeard(sitting.climb, said.said));
    case 'last':
      return { ...sitting, last: said.last };
    case 'rest':
      return { ...sitting, rest: said.words };
  }
}

/** The tempo on the stand is that of the climb's next take. */
function climbed(sitting: Sitting, climb: Sitting['climb']): Sitting {
  if (climb === null || climb.step.kind === 'done') return { ...sitting, climb };
  const output = sitting.output === NO_CLICK ? '' : sitting.output;
  return { ...ownInput(sitting), output, climb, pace: steadyPace, bpm: climb.step.bpm };
}

/** A tap, by key, pointer or pad: from the second on the tempo is theirs. */
export function tappedAt(sitting: Sitting, atMs: Ms): Sitting {
  const taps = withTap(sitting.taps, atMs);
  const bpm = tappedBpm(taps);
  if (bpm === undefined) return { ...sitting, taps };
  return { ...ownInput(sitting), taps, bpm: checkedBpm(Math.min(400, bpm), 'Tempo'), problem: '' };
}
