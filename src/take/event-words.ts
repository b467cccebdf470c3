import { fixed } from '../words/numbers';
import type { TakeEvent } from '../sessions/take-events';

/** What a player is told when it happens; undefined for what needs no word. */
export function eventWords(event: TakeEvent): string | undefined {
  switch (event.kind) {
    case 'mark':
      return `The teacher marked bar ${event.barInCycle + 1} of cycle ${event.cycle + 1}.`;
    case 'port gone':
      return `${event.port} is not connected. The take goes on; strokes count again when it is back.`;
    case 'port back':
      return `${event.port} is back; strokes count again.`;
    case 'midi withdrawn':
      return 'MIDI is no longer allowed on this page. What was played is kept; allow it again to go on.';
    case 'midi allowed':
      return 'MIDI is allowed again; strokes count again.';
    case 'page hidden':
      return undefined;
    case 'page shown':
      return 'This page was out of sight. Strokes were taken all the while.';
    case 'sound device changed':
      return 'The sound device changed. The click is steered to the new one; its delay may differ.';
    case 'sound stopped':
      return 'The computer’s sound stopped, and the click with it. The take goes on.';
    case 'sound back':
      return 'The computer’s sound is back.';
    case 'slept':
      return `The computer slept for ${fixed(event.byMs / 1000, 0)} s. The take ends there; all that was played is kept.`;
    case 'clock set':
      return `The computer’s clock was set ${fixed(Math.abs(event.byMs) / 1000, 1)} s ${event.byMs > 0 ? 'on' : 'back'}. The take keeps its own time.`;
    case 'stamps jumped':
      return `Time stamps from the kit are ${fixed(Math.abs(event.byMs) / 1000, 1)} s ${event.byMs > 0 ? 'ahead' : 'behind'}. Strokes are kept as stamped; timing may not be graded.`;
    case 'unknown note':
      return `Note ${event.note} on channel ${event.channel} is of no surface of this rig. It is kept, and not graded.`;
    case 'figure':
      return undefined;
  }
}
