/** An element: its name, attributes in order, and text or elements inside. */
export interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly inside: string | readonly Element[];
}

/** An element with other elements, absent ones left out. */
export function element(
  name: string,
  attributes: Readonly<Record<string, string>>,
  ...inside: readonly (Element | undefined)[]
): Element {
  return { name, attributes, inside: inside.filter((one) => one !== undefined) };
}

/** An element with text. */
export const textElement = (
  name: string,
  text: string | number,
  attributes: Readonly<Record<string, string>> = {},
): Element => ({ name, attributes, inside: String(text) });

/**
 * An element as XML, two spaces a level. Markup in texts and attributes is escaped; what XML 1.0 has no place for, like
 * control characters and half a surrogate pair, becomes U+FFFD.
 */
export function xmlOf({ name, attributes, inside }: Element, indent = ''): string {
  const head = Object.entries(attributes)
    .map(([key, value]) => ` ${key}="${escaped(value)}"`)
    .join('');
  if (inside.length === 0) return `${indent}<${name}${head}/>\n`;
  if (typeof inside === 'string') return `${indent}<${name}${head}>${escaped(inside)}</${name}>\n`;
  const lines = inside.map((child) => xmlOf(child, `${indent}  `)).join('');
  return `${indent}<${name}${head}>\n${lines}${indent}</${name}>\n`;
}

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  // A reader would make it a line feed.
  '\r': '&#13;',
};

/**
 * Text that may stand in XML.
 * @example escaped('R & L <"loud">') // => R &amp; L &lt;&quot;loud&quot;&gt;
 */
export function escaped(text: string): string {
  return text
    .replaceAll(/[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu, '\uFFFD')
    .replaceAll(/[&<>"\r]/g, (character) => ENTITIES[character]);
}
