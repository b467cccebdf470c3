/** What History shows: of which phrase and rig. Null: what was played last. */
export interface HistoryView {
  readonly phraseKey: string | null;
  readonly rigId: string | null;
}

export type HistorySaid =
  { readonly kind: 'phrase'; readonly id: string } | { readonly kind: 'rig'; readonly id: string };

export const firstHistory: HistoryView = { phraseKey: null, rigId: null };

/** History after something was said in it. */
export function historyHeard(history: HistoryView, said: HistorySaid): HistoryView {
  switch (said.kind) {
    case 'phrase':
      return { phraseKey: said.id, rigId: null };
    case 'rig':
      return { ...history, rigId: said.id };
  }
}
