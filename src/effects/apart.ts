import type { Apart } from '../insight/telling-apart';
import type { ApartAsked } from './apart-worker';
import type { Desk } from './page-effects';

/** Finds out, beside the page, what tells the variations of the open take apart. */
interface ApartDesk {
  /** Asks it of the take that is open; what was asked before is dropped. */
  ask(): void;
}

export function apartDesk({ sitting, say }: Desk): ApartDesk {
  let worker: Worker | null = null;
  return {
    ask() {
      worker?.terminate();
      worker = null;
      const { reviewed } = sitting();
      if (reviewed === null || !reviewed.report.fits || reviewed.report.variations.length < 2) return;
      const { take, report } = reviewed;
      worker = new Worker(new URL('./apart-worker.ts', import.meta.url), { type: 'module' });
      worker.addEventListener('message', ({ data }: MessageEvent<Apart>) => {
        say({ kind: 'review', said: { kind: 'apart', takeId: take.id, apart: data } });
        worker?.terminate();
        worker = null;
      });
      const asked: ApartAsked = { report, take: { phrase: take.phrase, tempo: take.tempo } };
      worker.postMessage(asked);
    },
  };
}
