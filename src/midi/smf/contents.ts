import { msAtTick, tempoPoints } from './ticks';
import type { MidiContents, MidiNote, MidiTrack, SmfEvent, TempoPoint } from './types';

/** The events of a file, track by track, as contents: ends put to their notes, ticks to times. */
export function contentsOf(
  format: 0 | 1,
  ticksPerQuarter: number,
  tracks: readonly (readonly SmfEvent[])[],
): MidiContents {
  const all = tracks.flat();
  const tempos = tempoPoints(
    all.filter((event) => event.kind === 'tempo'),
    ticksPerQuarter,
  );
  const meters = all
    .filter((event) => event.kind === 'meter')
    .map(({ tick, beats, unit }) => ({ tick, beats, unit }))
    .sort((a, b) => a.tick - b.tick);
  return {
    format,
    ticksPerQuarter,
    tempos,
    meters,
    tracks: tracks.map((events) => trackOf(events, tempos, ticksPerQuarter)),
  };
}

function trackOf(
  events: readonly SmfEvent[],
  tempos: readonly TempoPoint[],
  ticksPerQuarter: number,
): MidiTrack {
  const textsOf = (kind: 'name' | 'port' | 'text' | 'lyric'): { tick: number; text: string }[] =>
    events.flatMap((event) => (event.kind === kind ? [{ tick: event.tick, text: event.text }] : []));
  const notes: MidiNote[] = [];
  /** Indices of notes by channel and note, and how many of them have ended; the first to begin is the first to end. */
  const open = new Map<number, { readonly begun: number[]; ended: number }>();
  for (const event of events) {
    if (event.kind !== 'on' && event.kind !== 'off') continue;
    const key = event.channel * 128 + event.note;
    const waiting = open.get(key) ?? { begun: [], ended: 0 };
    if (event.kind === 'on') {
      const { tick, channel, note, velocity } = event;
      waiting.begun.push(notes.length);
      open.set(key, waiting);
      const atMs = msAtTick(tempos, ticksPerQuarter, tick);
      notes.push({ tick, atMs, channel, note, velocity, lengthTicks: undefined });
    } else {
      if (waiting.ended === waiting.begun.length) continue;
      const ended = waiting.begun[waiting.ended];
      waiting.ended += 1;
      notes[ended] = { ...notes[ended], lengthTicks: event.tick - notes[ended].tick };
    }
  }
  return {
    name: textsOf('name').at(0)?.text,
    port: textsOf('port').at(0)?.text,
    texts: textsOf('text'),
    lyrics: textsOf('lyric'),
    notes,
  };
}
