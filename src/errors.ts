/**
 * The one error thrown on purpose: it names the place, the rule and the value.
 * Everything that reads what a person or a file wrote throws this and nothing else.
 * @example new InputError('hits[12].velocity', 'must be an integer 1–127', 0).message
 * // => hits[12].velocity must be an integer 1–127, got 0
 */
export class InputError extends Error {
  override readonly name = 'InputError';

  /**
   * @param place where the input is wrong, as a path: `phrase.bars[2].sticking`
   * @param rule what must be so there
   * @param value what was found; left out where the rule already says it
   * @param hint a guess at the mistake, put in brackets
   */
  constructor(
    readonly place: string,
    readonly rule: string,
    readonly value?: unknown,
    readonly hint?: string,
  ) {
    const got = value === undefined ? '' : `, got ${shown(value)}`;
    const guess = hint === undefined ? '' : ` (${hint})`;
    super(`${place} ${rule}${got}${guess}`.trim());
  }

  /** The same error seen from further out: `sticking` inside `bars[2]` is at `bars[2].sticking`. */
  within(outer: string): InputError {
    const joint = this.place.startsWith('line ') ? ': ' : /^(\[|$)/.test(this.place) ? '' : '.';
    return new InputError(`${outer}${joint}${this.place}`, this.rule, this.value, this.hint);
  }
}

const LONGEST_SHOWN = 60;

/** A value short enough for one line of an error. */
function shown(value: unknown): string {
  const text = typeof value === 'number' ? String(value) : (JSON.stringify(value) ?? String(value));
  return text.length > LONGEST_SHOWN ? `${text.slice(0, LONGEST_SHOWN)}…` : text;
}
