/**
 * Of some names the one that was most likely meant: the fewest letters left out, put in, changed or swapped with their
 * neighbour, and no more of them than a third of what was typed. Upper and lower case are one.
 * @returns undefined where none is near
 * @example nearest('paradidle', ['single paradiddle', 'paradiddle', 'flam']) // => paradiddle
 */
export function nearest(typed: string, names: readonly string[]): string | undefined {
  const wanted = typed.trim().toLowerCase();
  const reach = Math.max(1, Math.floor(wanted.length / 3));
  let best: { readonly name: string; readonly far: number } | undefined;
  for (const name of names) {
    if (Math.abs(name.length - wanted.length) > reach) continue;
    const far = distance(wanted, name.toLowerCase());
    if (far <= reach && (best === undefined || far < best.far)) best = { name, far };
  }
  return best?.name;
}

/** Damerau's and Levenshtein's distance, of neighbours swapped once (optimal string alignment). */
function distance(a: string, b: string): number {
  let older: number[] = [];
  let before = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const change = before[j - 1] + Number(a[i - 1] !== b[j - 1]);
      const isSwapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      row.push(Math.min(before[j] + 1, row[j - 1] + 1, change, isSwapped ? older[j - 2] + 1 : Infinity));
    }
    older = before;
    before = row;
  }
  return before[b.length];
}
