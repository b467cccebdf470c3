import { interval } from 'rxjs';
import type { On } from '../state/commands';
import { factsBefore } from '../state/climb';
import { rigInUse } from '../state/reducer';
import type { Take } from '../sessions/types';
import type { Desk } from './page-effects';
import { reportOnce } from './graded-once';
import type { Playing } from './running-take';

const TICK_MS = 250;
const nowMs = (): number => performance.now();

/** Climbs: begun and ended by the player, gone on with by themselves. */
interface ClimbDesk {
  /** A take has ended: where a climb is on, what comes next. @throws InputError where it can't be graded */
  took(take: Take): void;
}

export function climbDesk(on: On, { sitting, say }: Desk, play: () => Playing): ClimbDesk {
  on('climb', (asked) => {
    if (!asked.on) {
      say({ kind: 'climb', said: { kind: 'end' } });
      return;
    }
    const now = sitting();
    const today = new Date().toISOString().slice(0, 10);
    const facts = factsBefore(now.bpm, now.phrase, rigInUse(now), now.keeping.takes, today);
    say({ kind: 'climb', said: { kind: 'begin', facts, phrase: now.phrase } });
  });

  interval(TICK_MS).subscribe(() => {
    const { climb, screen } = sitting();
    if (climb === null || climb.startsAtMs === null) return;
    if (play().isRunning() || screen !== 'play') {
      say({ kind: 'climb', said: { kind: 'hold' } });
      return;
    }
    const atMs = nowMs();
    if (atMs >= climb.startsAtMs) {
      say({ kind: 'climb', said: { kind: 'hold' } });
      play().start();
    } else if (Math.ceil((climb.startsAtMs - atMs) / 1000) !== climb.secondsLeft) {
      say({ kind: 'climb', said: { kind: 'tick', atMs } });
    }
  });

  return {
    took(take) {
      if (sitting().climb === null) return;
      say({ kind: 'climb', said: { kind: 'took', report: reportOnce(take), take, atMs: nowMs() } });
    },
  };
}
