/**
 * The first letter large, the rest as it is.
 * @example capital('soft strokes') // => 'Soft strokes'
 */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/**
 * A noun, in the plural but for one.
 * @param plural where it is more than an s
 * @example plural(1, 'bar') // => 'bar'
 * @example plural(2, 'bar') // => 'bars'
 */
export function plural(count: number, noun: string, plural = `${noun}s`): string {
  return count === 1 ? noun : plural;
}

/**
 * A number of things.
 * @example counted(1, 'bar') // => '1 bar'
 * @example counted(0, 'bar') // => '0 bars'
 */
export function counted(count: number, noun: string): string {
  return `${count} ${plural(count, noun)}`;
}

/**
 * Things one after the other, with "and" before the last.
 * @example listed(['R', 'L']) // => 'R and L'
 * @example listed(['snare', 'tom 1', 'tom 2']) // => 'snare, tom 1 and tom 2'
 */
export function listed(things: readonly string[]): string {
  if (things.length < 2) return things.join('');
  return `${things.slice(0, -1).join(', ')} and ${things[things.length - 1]}`;
}
