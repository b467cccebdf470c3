import type { Apart } from '../insight/telling-apart';
import type { Effects } from '../state/dispatcher';
import type { State } from '../state/state';
import type { ApartAsked } from './apart-worker';
import type { Context } from './context';

/** Finds out, beside the page, what tells the variations of the open take apart; what was asked of another take is dropped. */
export function apartEffects({ dispatch }: Context) {
  let worker: Worker | null = null;
  let asked: State['reviewed'] = null;

  function ask(reviewed: State['reviewed']): void {
    worker?.terminate();
    worker = null;
    if (reviewed === null || !reviewed.report.fits || reviewed.report.variations.length < 2) return;
    const { take, report } = reviewed;
    worker = new Worker(new URL('./apart-worker.ts', import.meta.url), { type: 'module' });
    worker.addEventListener('message', ({ data }: MessageEvent<Apart>) => {
      dispatch({ kind: 'apart found', takeId: take.id, apart: data });
      worker?.terminate();
      worker = null;
    });
    const question: ApartAsked = { report, take: { phrase: take.phrase, tempo: take.tempo } };
    worker.postMessage(question);
  }

  return {
    changed({ reviewed }) {
      if (reviewed === asked) return;
      asked = reviewed;
      ask(reviewed);
    },
  } satisfies Effects;
}
