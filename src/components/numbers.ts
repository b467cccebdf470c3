/** A number as it stands on a page: fixed places, a real minus sign, never "−0". */
export function fixed(value: number, places: number): string {
  const text = Math.abs(value).toFixed(places);
  return value < 0 && Number(text) !== 0 ? `−${text}` : text;
}

/** The same with a plus sign where it is above nought. */
export function signed(value: number, places: number): string {
  const text = fixed(value, places);
  return value > 0 && Number(text) !== 0 ? `+${text}` : text;
}

/** A fraction as a CSS length. */
export function percent(fraction: number): string {
  return `${Number((fraction * 100).toFixed(3))}%`;
}

/** A day and a time of day, in the reader's own way of writing them. */
export function dayAndTime(iso: string): string {
  const date = new Date(iso);
  if (Number.isNaN(date.getTime())) return iso;
  return date.toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' });
}

/** The first letter large, the rest as it is. */
export function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
