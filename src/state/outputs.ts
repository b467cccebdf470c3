/** Output of a click that is seen and not heard. */
export const SEEN_CLICK = 'seen';
/** Output where no click is wanted at all: the player carries the time alone. */
export const NO_CLICK = 'none';

/** The MIDI output a click goes to; null where it is the computer's, only seen, or none. */
export const kitOutputOf = (output: string): string | null =>
  output === '' || output === SEEN_CLICK || output === NO_CLICK ? null : output;
