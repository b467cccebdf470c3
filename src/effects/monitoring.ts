import { interval, type Subscription } from 'rxjs';
import { nextHit, noHits, type HitState } from '../midi/conditioning';
import { clumpedPorts, nextStamp, noStamps, type StampsState } from '../midi/learning/clumped';
import { monitored, monitoredLabel, noMessages, type MonitorState } from '../midi/monitor';
import type { MidiGateway } from '../midi/types';
import type { RawHit } from '../stroke';
import type { Rig } from '../sessions/types';
import { settingsOf } from '../settings';
import type { Effects } from '../state/dispatcher';
import type { Context } from './context';

/** The monitor is shown anew no oftener than this. */
const SHOWN_EVERY_MS = 250;
/** Time stamps are looked at after so many hits. */
const LOOKED_AT_EVERY = 24;

/**
 * Counts what comes in from the moment the page opens, so that a bug report has it all; shown while the Rig screen is.
 * On the way it notices time stamps in clumps.
 */
export function monitorEffects({ state, dispatch }: Context, midi: MidiGateway) {
  let counted: MonitorState = noMessages;
  let shown: MonitorState | null = null;
  let showing: Subscription | null = null;
  let stamps: StampsState = noStamps;
  let hits = 0;
  let { rig, limits, running } = state();
  let conditioned: { readonly rig: Rig; readonly step: ReturnType<typeof nextHit>; now: HitState } | null =
    null;

  function count(hit: RawHit): void {
    stamps = nextStamp(stamps, hit);
    hits += 1;
    if (rig === null) return;
    if (conditioned?.rig !== rig) conditioned = { rig, step: nextHit(rig, settingsOf(limits)), now: noHits };
    conditioned.now = conditioned.step(conditioned.now, hit);
    const { label, takenBack } = conditioned.now;
    if (label !== null) counted = monitoredLabel(counted, label);
    for (const taken of takenBack) counted = monitoredLabel(counted, taken.label);
    if (running === null && hits % LOOKED_AT_EVERY === 0) lookAtStamps(rig);
  }

  function lookAtStamps({ surfaces, clumpedPorts: before = [] }: Rig): void {
    const clumped = clumpedPorts(stamps).filter((name) => surfaces.some(({ port }) => port === name));
    const same = clumped.length === before.length && clumped.every((name) => before.includes(name));
    if (!same) dispatch({ kind: 'ports clumped', ports: clumped });
  }

  function show(): void {
    if (counted === shown) return;
    shown = counted;
    dispatch({ kind: 'monitored', monitor: counted });
  }

  midi.messages$.subscribe((message) => (counted = monitored(counted, message)));
  midi.hits$.subscribe(count);

  return {
    changed(state) {
      ({ rig, limits, running } = state);
      const wanted = state.screen === 'rig';
      if (wanted === (showing !== null)) return;
      showing?.unsubscribe();
      showing = wanted ? interval(SHOWN_EVERY_MS).subscribe(show) : null;
    },
  } satisfies Effects;
}
