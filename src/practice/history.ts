/** What History shows: of which phrase and rig. Null: what was played last. */
export interface HistoryView {
  readonly phraseKey: string | null;
  readonly rigId: string | null;
  /** The variation whose ceiling is drawn; null: the whole phrase's. */
  readonly variation: string | null;
  /** The term report that is being written; null where none is. */
  readonly term: TermDraft | null;
}

/** A page for parents, as its writer has it. Days like 2026-12-01, both of them in it. */
export interface TermDraft {
  readonly student: string;
  readonly fromDay: string;
  readonly toDay: string;
  readonly words: string;
}

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
