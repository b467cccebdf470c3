import type { MidiStatus } from '../../midi/types';
import type { Strikes } from '../../take/types';
import type { Hand } from '../../stroke';

/** What a page says of MIDI: how things stand, what to do about it, and whether asking (again) can help. */
interface MidiWords {
  readonly says: string;
  /** Empty where nothing needs doing. */
  readonly todo: string;
  /** Label of the button that asks for MIDI, or null where asking can't help. */
  readonly ask: string | null;
}

const BUNDLED = 'The bundled takes work without it: choose one as the input on Play.';

const failures: Readonly<Record<(MidiStatus & { kind: 'failed' })['reason'], MidiWords>> = {
  unsupported: {
    says: 'This browser has no MIDI.',
    todo: `Open this page in Chrome, Edge or Firefox on a laptop or on Android; Safari, and so any browser on an iPad, has none. ${BUNDLED}`,
    ask: null,
  },
  insecure: {
    says: 'MIDI needs a secure page, and this one isn’t.',
    todo: `Open it over https, or from this computer as http://localhost or http://127.0.0.1. ${BUNDLED}`,
    ask: null,
  },
  refused: {
    says: 'MIDI was not allowed on this page.',
    todo: `Allow MIDI devices for it in the browser’s site settings (the sign beside the address), then ask again. ${BUNDLED}`,
    ask: 'Ask again',
  },
  busy: {
    says: 'The MIDI system didn’t open: another program may hold the port.',
    todo: `Close other music programs, plug the kit out and in, then ask again. ${BUNDLED}`,
    ask: 'Ask again',
  },
};

/** Words for how MIDI stands. */
export function midiWords(status: MidiStatus): MidiWords {
  switch (status.kind) {
    case 'off':
      return { says: 'MIDI is not connected yet.', todo: BUNDLED, ask: 'Connect MIDI' };
    case 'asking':
      return {
        says: 'Asking for MIDI…',
        todo: 'Answer the browser’s question at the top of the window.',
        ask: 'Ask again',
      };
    case 'failed':
      return failures[status.reason];
    case 'on': {
      const there = status.inputs.filter((port) => port.connected);
      if (there.length === 0) {
        return {
          says: 'MIDI is on, but no kit or pad is there.',
          todo: `Plug it in and switch it on; it appears by itself. ${BUNDLED}`,
          ask: 'Look again',
        };
      }
      return { says: `MIDI is on: ${there.map((port) => port.name).join(', ')}.`, todo: '', ask: null };
    }
  }
}

const handName = (hand: Hand): string => (hand === 'R' ? 'right' : 'left');

/** Words for the two strikes before a take, and whether they are done. */
export function strikeWords(strikes: Strikes): { readonly says: string; readonly done: boolean } {
  const { first, second, firstHand } = strikes;
  const otherHand = firstHand === 'R' ? 'L' : 'R';
  if (first === null) return { says: `Strike once with your ${handName(firstHand)} hand.`, done: false };
  if (second === null) return { says: `Now once with your ${handName(otherHand)} hand.`, done: false };
  const oneSurface =
    first.note === second.note && first.channel === second.channel && first.port === second.port;
  if (oneSurface) {
    return { says: `One surface (note ${first.note}): hands are taken from the sticking.`, done: true };
  }
  const [right, left] = firstHand === 'R' ? [first, second] : [second, first];
  return { says: `A surface a hand: right note ${right.note}, left note ${left.note}.`, done: true };
}
