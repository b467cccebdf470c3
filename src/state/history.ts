import type { HistoryView, TermDraft } from '../insight/history/view';

export type HistorySaid =
  | { readonly kind: 'phrase'; readonly id: string }
  | { readonly kind: 'rig'; readonly id: string }
  /** Empty for the whole phrase. */
  | { readonly kind: 'variation'; readonly id: string }
  | { readonly kind: 'term'; readonly term: TermDraft | null }
  | { readonly kind: 'term change'; readonly change: Partial<TermDraft> };

export const firstHistory: HistoryView = { phraseKey: null, rigId: null, variation: null, term: null };

/** History after something was said in it. */
export function historyHeard(history: HistoryView, said: HistorySaid): HistoryView {
  switch (said.kind) {
    case 'phrase':
      return { ...firstHistory, phraseKey: said.id };
    case 'rig':
      return { ...history, rigId: said.id };
    case 'variation':
      return { ...history, variation: said.id === '' ? null : said.id };
    case 'term':
      return { ...history, term: said.term };
    case 'term change':
      return history.term === null ? history : { ...history, term: { ...history.term, ...said.change } };
  }
}
