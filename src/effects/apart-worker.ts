import { apartOf } from '../insight/telling-apart';
import type { Take } from '../sessions/types';

/** What is asked of the worker; its answer is an `Apart`. */
export interface ApartAsked {
  readonly report: Parameters<typeof apartOf>[0];
  readonly take: Pick<Take, 'phrase' | 'tempo'>;
}

// A worker of its own: a thousand shuffles never hold up the page.
self.addEventListener('message', ({ data }: MessageEvent<ApartAsked>) => {
  self.postMessage(apartOf(data.report, data.take));
});
