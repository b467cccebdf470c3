const KEY = 'evenhand-turn';

/** Whose turn it is in this window, also after a reload: two windows side by side may each have another's. */
export function turnOfWindow(): string {
  try {
    return sessionStorage.getItem(KEY) ?? '';
  } catch {
    // A browser that keeps nothing.
    return '';
  }
}

export function keepTurnOfWindow(playerId: string): void {
  try {
    sessionStorage.setItem(KEY, playerId);
  } catch {
    // Then a reload goes by the turn that was given last.
  }
}
