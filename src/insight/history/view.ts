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
