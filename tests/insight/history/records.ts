import type { Graded, TakeSummary } from '../../../src/sessions/take-record';

/** A record of a take of 1.5 minutes on 2 March 2026, a Monday. */
export function record(id: string, more: Partial<TakeSummary> = {}): TakeSummary {
  return {
    id,
    title: 'Single paradiddle, accent walk',
    player: '',
    playerId: 'kim',
    recordedAt: '2026-03-02T17:00:00.000Z',
    source: 'played',
    bpm: 84,
    hits: 128,
    phraseKey: 'walk',
    rigId: 'pad',
    rigName: 'Pad',
    limits: 'working',
    minutes: 1.5,
    cold: null,
    sheetId: '',
    remedy: '',
    sentence: '',
    graded: null,
    ...more,
  };
}

export function graded(margin: number, more: Partial<Graded> = {}): Graded {
  return {
    version: 1,
    weakest: { variation: 'accent on 4', measure: 'leakBefore', margin },
    measures: {},
    bars: [],
    ...more,
  };
}
