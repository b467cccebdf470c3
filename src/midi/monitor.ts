import type { Ms } from '../units';
import type { Label, RawMessage } from './types';

/** Why something that came in became no stroke. */
type Unheeded =
  | 'note-offs'
  | 'note-ons with velocity 0'
  | 'aftertouch (chokes)'
  | 'controllers'
  | 'program changes'
  | 'pitch bends'
  | 'clock and active sensing'
  | 'other system messages'
  | 'broken messages'
  | 'messages without a finite time'
  | 'zones'
  | 'forerunners'
  | 'crosstalk'
  | 'notes of no surface';

/** The newest messages, and how many of what became no stroke. */
export interface MonitorState {
  /** Oldest first, at most {@link MONITOR_KEPT}; clock and active sensing are counted only. */
  readonly messages: readonly ShownMessage[];
  /** Note-ons with a velocity. */
  readonly noteOns: number;
  readonly unheeded: ReadonlyMap<Unheeded, number>;
}

interface ShownMessage {
  readonly atMs: Ms;
  readonly port: string;
  readonly bytes: readonly number[];
}

export const MONITOR_KEPT = 200;
const LONGEST_SHOWN = 12;

export const noMessages: MonitorState = { messages: [], noteOns: 0, unheeded: new Map() };

/** One message further: kept in the ring, and counted where it can be no stroke. */
export function monitored(state: MonitorState, { atMs, port, bytes }: RawMessage): MonitorState {
  if (!Number.isFinite(atMs)) return counting(state, 'messages without a finite time');
  const why = whyUnheeded(bytes);
  const counted = why === undefined ? { ...state, noteOns: state.noteOns + 1 } : counting(state, why);
  if (why === 'clock and active sensing') return counted;
  const shown = { atMs, port, bytes: Array.from(bytes).slice(0, LONGEST_SHOWN) };
  return { ...counted, messages: [...state.messages.slice(1 - MONITOR_KEPT), shown] };
}

/** What conditioning made of a note-on. A stroke is counted nowhere; one that is taken back is given once more, as what it was. */
export function monitoredLabel(state: MonitorState, label: Label): MonitorState {
  const why = whyOfLabel[label];
  return why === null ? state : counting(state, why);
}

/**
 * All of it as text, to be copied into a bug report: counts, then the newest messages with times since the first of them.
 * @example monitorText(noMessages) // => 'Evenhand MIDI monitor\n0 note-ons\nnothing unheeded\nno messages\n'
 */
export function monitorText({ messages, noteOns, unheeded }: MonitorState): string {
  const counts = [...unheeded].map(([why, count]) => `${count} ${why} unheeded`);
  const lines = monitorLines({ messages });
  return [
    'Evenhand MIDI monitor',
    `${noteOns} note-ons`,
    ...(counts.length === 0 ? ['nothing unheeded'] : counts),
    ...(lines.length === 0 ? ['no messages'] : lines),
    '',
  ].join('\n');
}

/** A line a message, oldest first, with the time since the oldest. */
export function monitorLines({ messages }: Pick<MonitorState, 'messages'>): readonly string[] {
  const firstMs = messages[0]?.atMs ?? 0;
  return messages.map(
    ({ atMs, port, bytes }) => `${(atMs - firstMs).toFixed(1)} ms  ${port}  ${hex(bytes)}  ${nameOf(bytes)}`,
  );
}

const whyOfLabel: Readonly<Record<Label, Unheeded | null>> = {
  stroke: null,
  zone: 'zones',
  forerunner: 'forerunners',
  crosstalk: 'crosstalk',
  unmapped: 'notes of no surface',
};

function counting(state: MonitorState, why: Unheeded): MonitorState {
  const unheeded = new Map(state.unheeded).set(why, (state.unheeded.get(why) ?? 0) + 1);
  return { ...state, unheeded };
}

/** Why a message can be no stroke; undefined for a note-on with a velocity. Source: MIDI 1.0, status bytes. */
function whyUnheeded(bytes: ArrayLike<number>): Unheeded | undefined {
  const status = bytes.length === 0 ? 0 : bytes[0];
  if (status >= 0xf8) return 'clock and active sensing';
  if (status >= 0xf0) return 'other system messages';
  const needed = status >= 0xc0 && status < 0xe0 ? 2 : 3;
  if (status < 0x80 || bytes.length < needed) return 'broken messages';
  for (let index = 1; index < needed; index += 1) if (bytes[index] > 127) return 'broken messages';
  switch (status & 0xf0) {
    case 0x80:
      return 'note-offs';
    case 0x90:
      return bytes[2] === 0 ? 'note-ons with velocity 0' : undefined;
    case 0xa0:
    case 0xd0:
      return 'aftertouch (chokes)';
    case 0xb0:
      return 'controllers';
    case 0xc0:
      return 'program changes';
    default:
      return 'pitch bends';
  }
}

function nameOf(bytes: readonly number[]): string {
  const why = whyUnheeded(bytes);
  if (why === 'broken messages' || why === 'other system messages') return why;
  const channel = `channel ${(bytes[0] & 0x0f) + 1}`;
  if (why === undefined) return `note-on ${bytes[1]} velocity ${bytes[2]} ${channel}`;
  return `${why.replace(/s(?= |$)/, '')} ${bytes.slice(1).join(' ')} ${channel}`;
}

const hex = (bytes: readonly number[]): string =>
  bytes.map((byte) => byte.toString(16).toUpperCase().padStart(2, '0')).join(' ');
