/** What History shows: of which phrase and rig. Null: what was played last. */
export interface HistoryView {
  readonly phraseKey: string | null;
  readonly rigId: string | null;
  /** The variation whose ceiling is drawn; null: the whole phrase's. */
  readonly variation: string | null;
}

export type HistorySaid =
  | { readonly kind: 'phrase'; readonly id: string }
  | { readonly kind: 'rig'; readonly id: string }
  /** Empty for the whole phrase. */
  | { readonly kind: 'variation'; readonly id: string };

export const firstHistory: HistoryView = { phraseKey: null, rigId: null, variation: null };

/** History after something was said in it. */
export function historyHeard(history: HistoryView, said: HistorySaid): HistoryView {
  switch (said.kind) {
    case 'phrase':
      return { ...firstHistory, phraseKey: said.id };
    case 'rig':
      return { ...history, rigId: said.id };
    case 'variation':
      return { ...history, variation: said.id === '' ? null : said.id };
  }
}
