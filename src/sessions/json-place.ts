/**
 * Where a text stops being JSON: the index of the first character that no JSON text could have there, or the length of
 * the text where it is cut off. Engines name the place in ways of their own, or not at all.
 * @returns undefined where the text is JSON
 * @example firstWrongIndex('{"a":1,}') // => 7
 * @example firstWrongIndex('[1,2') // => 4
 */
export function firstWrongIndex(text: string): number | undefined {
  const scan = new Scanner(text);
  try {
    scan.value();
    scan.end();
    return undefined;
  } catch (error) {
    if (error instanceof WrongAt) return error.index;
    throw error;
  }
}

class WrongAt extends Error {
  constructor(readonly index: number) {
    super();
  }
}

/** A number, a word, or the unbroken part of a string. */
const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const WORD = /true|false|null/y;
const STRING = /"(?:[^"\\\u0000-\u001f]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*/y;
const SPACE = /[ \t\n\r]*/y;
/** Deeper than any file of ours; a text of nothing but brackets must not exhaust the stack. */
const DEEPEST = 200;

class Scanner {
  private at = 0;
  private depth = 0;

  constructor(private readonly text: string) {}

  value(): void {
    this.skip(SPACE);
    const first = this.text[this.at];
    if (first === '{') this.list('}', () => this.member());
    else if (first === '[') this.list(']', () => this.value());
    else if (first === '"') this.string();
    else if (!this.skip(WORD) && !this.skip(NUMBER)) throw new WrongAt(this.at);
    this.skip(SPACE);
  }

  end(): void {
    if (this.at < this.text.length) throw new WrongAt(this.at);
  }

  private list(close: string, item: () => void): void {
    this.depth += 1;
    if (this.depth > DEEPEST) throw new WrongAt(this.at);
    this.at += 1;
    this.skip(SPACE);
    if (this.text[this.at] !== close) {
      item();
      while (this.text[this.at] === ',') {
        this.at += 1;
        item();
      }
    }
    this.expect(close);
    this.depth -= 1;
  }

  private member(): void {
    this.skip(SPACE);
    this.string();
    this.skip(SPACE);
    this.expect(':');
    this.value();
  }

  private string(): void {
    if (!this.skip(STRING)) throw new WrongAt(this.at);
    this.expect('"');
  }

  private expect(character: string): void {
    if (this.text[this.at] !== character) throw new WrongAt(this.at);
    this.at += 1;
  }

  /** Moves past what `pattern` matches here, and tells whether that was anything. */
  private skip(pattern: RegExp): boolean {
    pattern.lastIndex = this.at;
    const match = pattern.exec(this.text);
    if (match === null) return false;
    this.at += match[0].length;
    return match[0].length > 0;
  }
}
