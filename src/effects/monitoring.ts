import { interval } from 'rxjs';
import { nextHit, noHits, type HitState } from '../midi/conditioning';
import { clumpedPorts, nextStamp, noStamps, type StampsState } from '../midi/learning/clumped';
import { monitored, monitoredLabel, noMessages, type MonitorState } from '../midi/monitor';
import type { MidiDoor } from '../midi/types';
import type { RiggingEvent } from '../state/rig';
import type { Rig } from '../sessions/types';
import { settingsOf } from '../settings';
import type { Desk } from './page-effects';

/** The monitor is shown anew no oftener than this. */
const SHOWN_EVERY_MS = 250;
/** Time stamps are looked at after so many hits. */
const LOOKED_AT_EVERY = 24;

/**
 * Counts what comes in from the moment the page opens, so that a bug report has it all; shown while the Rig screen is.
 * On the way it notices time stamps in clumps.
 */
export function monitoring({ sitting }: Desk, door: MidiDoor, tell: (event: RiggingEvent) => void): void {
  let state: MonitorState = noMessages;
  let shown: MonitorState | null = null;
  let stamps: StampsState = noStamps;
  let hits = 0;
  let conditioned: { readonly rig: Rig; readonly step: ReturnType<typeof nextHit>; now: HitState } | null =
    null;

  door.messages$.subscribe((message) => (state = monitored(state, message)));
  door.hits$.subscribe((hit) => {
    const { rig, limits, running } = sitting();
    stamps = nextStamp(stamps, hit);
    hits += 1;
    if (rig === null) return;
    if (conditioned?.rig !== rig) conditioned = { rig, step: nextHit(rig, settingsOf(limits)), now: noHits };
    conditioned.now = conditioned.step(conditioned.now, hit);
    const { label, takenBack } = conditioned.now;
    if (label !== null) state = monitoredLabel(state, label);
    for (const taken of takenBack) state = monitoredLabel(state, taken.label);
    if (running === null && hits % LOOKED_AT_EVERY === 0) lookAtStamps(rig);
  });

  function lookAtStamps(rig: Rig): void {
    const clumped = clumpedPorts(stamps).filter((name) => rig.surfaces.some(({ port }) => port === name));
    const before = rig.clumpedPorts ?? [];
    const same = clumped.length === before.length && clumped.every((name) => before.includes(name));
    if (!same) tell({ kind: 'clumped', ports: clumped });
  }

  interval(SHOWN_EVERY_MS).subscribe(() => {
    if (sitting().screen !== 'rig' || state === shown) return;
    shown = state;
    tell({ kind: 'monitor', monitor: state });
  });
}
