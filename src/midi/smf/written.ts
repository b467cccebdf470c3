import type { Phrase, Tempo } from '../../exercises/types';
import type { Rig, Take } from '../../sessions/types';
import type { Ms } from '../../units';
import { carriedText } from './carried';
import { targetOf, TICKS_A_BEAT, type Target } from './target';
import { tempoPoints, tickAtMs, msAtTick } from './ticks';
import { GRACE_BEFORE_MS, merged, noteEvents, targetNotes, type Struck } from './tracks';
import type { SmfEvent, TempoPoint } from './types';

/** Tracks of a file: the first has tempo and time signatures, the second the target, the others what was played. */
type Tracks = readonly (readonly SmfEvent[])[];

/** Two graces reach this far before a downbeat. */
const GRACES_MS: Ms = 2 * GRACE_BEFORE_MS;

/** A phrase as tracks; bars of silence go ahead only where a grace stands before the first downbeat. */
export function phraseTracks(phrase: Phrase, tempo: Tempo, rig?: Rig): Tracks {
  const target = targetOf(phrase, tempo);
  const graced = target.partials.some(({ tick, content }) => tick === 0 && content.graces.length > 0);
  const frame = frameOf(target, graced ? GRACES_MS : 0);
  const text = carriedText({ kind: 'phrase', phrase, tempo });
  return [conductor(phrase, frame), targetTrack(frame, phrase, rig, text)];
}

/** A take as tracks: the target, and a track a port with the raw hits. A free take has no target notes. */
export function takeTracks(take: Take): Tracks {
  const { hits, ...head } = take;
  const { phrase, tempo, rig, downbeatMs } = take;
  const whole = targetOf(phrase, tempo);
  const target = downbeatMs === null ? { ...whole, partials: [] } : whole;
  const firstMs = hits.length === 0 ? 0 : hits[0].atMs;
  const clockMs = downbeatMs ?? firstMs;
  const frame = frameOf(target, Math.max(GRACES_MS, clockMs - firstMs));
  const downbeatInFileMs = msAtTick(frame.points, TICKS_A_BEAT, frame.leadTicks);
  const ports = new Map<string, Struck[]>();
  for (const { atMs, port, channel, note, velocity } of hits) {
    const tick = tickAtMs(frame.points, TICKS_A_BEAT, atMs - clockMs + downbeatInFileMs);
    const struck = ports.get(port) ?? [];
    struck.push({ tick, channel, note, velocity });
    ports.set(port, struck);
  }
  const played = [...ports].map(([port, struck]) =>
    merged(
      [
        { kind: 'name', tick: 0, text: 'Played' },
        { kind: 'port', tick: 0, text: port },
      ],
      noteEvents(struck, frame.points),
    ),
  );
  const text = carriedText({ kind: 'take', clockMs, take: head });
  return [conductor(phrase, frame), targetTrack(frame, phrase, rig, text), ...played];
}

interface Frame {
  readonly target: Target;
  /** From the start of the file to the downbeat: whole bars. */
  readonly leadTicks: number;
  readonly tempos: readonly { readonly tick: number; readonly usPerQuarter: number }[];
  readonly points: readonly TempoPoint[];
}

/** Bars of lead-in that hold `leadMs`, and the tempo map. */
function frameOf(target: Target, leadMs: Ms): Frame {
  const barTicks = target.bars[0].beats * TICKS_A_BEAT;
  const barMs = target.bars[0].beats * target.beats[0].lengthMs;
  const leadTicks = Math.ceil(leadMs / barMs) * barTicks;
  const tempos = temposOf(target, leadTicks);
  return { target, leadTicks, tempos, points: tempoPoints(tempos, TICKS_A_BEAT) };
}

/**
 * Set tempos of a target. A file has whole µs a quarter; on a ramp each beat's takes up what the beats before were
 * rounded by, so that the ramp never drifts.
 */
function temposOf({ beats }: Target, leadTicks: number): { tick: number; usPerQuarter: number }[] {
  const steady = beats.every(({ lengthMs }) => lengthMs === beats[0].lengthMs);
  const tempos = [{ tick: 0, usPerQuarter: Math.round(beats[0].lengthMs * 1000) }];
  if (steady) return tempos;
  let wantedUs = 0;
  let writtenUs = 0;
  for (const { tick, lengthMs } of beats) {
    wantedUs += lengthMs * 1000;
    const usPerQuarter = Math.round(wantedUs - writtenUs);
    writtenUs += usPerQuarter;
    const last = tempos[tempos.length - 1];
    if (usPerQuarter !== last.usPerQuarter) tempos.push({ tick: leadTicks + tick, usPerQuarter });
  }
  return tempos;
}

function conductor(phrase: Phrase, { target, leadTicks, tempos }: Frame): readonly SmfEvent[] {
  const meters: SmfEvent[] = [{ kind: 'meter', tick: 0, beats: target.bars[0].beats, unit: 4 }];
  target.bars.forEach(({ tick, beats }, index) => {
    if (index === 0 || beats === target.bars[index - 1].beats) return;
    meters.push({ kind: 'meter', tick: leadTicks + tick, beats, unit: 4 });
  });
  return merged(
    [{ kind: 'name', tick: 0, text: phrase.title }],
    meters,
    tempos.map((tempo): SmfEvent => ({ kind: 'tempo', ...tempo })),
  );
}

function targetTrack(frame: Frame, phrase: Phrase, rig: Rig | undefined, text: string): readonly SmfEvent[] {
  const { target, leadTicks, points } = frame;
  const lyrics = target.partials
    .filter(({ content }) => content.notes.length > 0)
    .map((partial): SmfEvent => ({ kind: 'lyric', tick: leadTicks + partial.tick, text: partial.text }));
  return merged(
    [
      { kind: 'name', tick: 0, text: 'Target' },
      { kind: 'text', tick: leadTicks, text },
    ],
    lyrics,
    noteEvents(targetNotes(target, phrase, rig, points, leadTicks), points),
  );
}
