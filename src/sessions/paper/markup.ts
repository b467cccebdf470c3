import { escaped } from '../xml';

/** Text that is HTML already, made here and nowhere else: what a person or a file wrote never becomes one. */
export interface Markup {
  readonly markup: string;
}

type Part = string | number | Markup | readonly Markup[];

/**
 * HTML with everything put in escaped, save what is markup already.
 * @example html`<b>${'R & L'}</b>`.markup // => <b>R &amp; L</b>
 */
export function html(strings: TemplateStringsArray, ...parts: readonly Part[]): Markup {
  return {
    markup: strings.map((text, index) => (index === 0 ? '' : textOf(parts[index - 1])) + text).join(''),
  };
}

/** A picture, or another piece that was escaped where it was made. */
export const raw = (markup: string): Markup => ({ markup });

export const nothing: Markup = { markup: '' };

function textOf(part: Part): string {
  if (typeof part === 'string') return escaped(part);
  if (typeof part === 'number') return String(part);
  return 'markup' in part ? part.markup : part.map(({ markup }) => markup).join('');
}

/**
 * Text that Markdown takes as text: what would be markup has a backslash, and one line stays one line.
 * @example inMarkdown('R & L <b>') // => R &amp; L &lt;b&gt;
 */
export function inMarkdown(text: string): string {
  return text
    .replaceAll(/\s+/g, ' ')
    .trim()
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll(/[\\`*_[\]#|~]/g, (character) => `\\${character}`)
    .replace(/^([-+=:!]|\d+[.)](?= ))/, (start) => start.replace(/(.)$/, '\\$1'));
}
