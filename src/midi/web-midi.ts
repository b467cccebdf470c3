import { BehaviorSubject, Subject } from 'rxjs';
import { WebMidi } from 'webmidi';
import type { Input, MessageEvent, Output } from 'webmidi';
import type { RawHit } from '../stroke';
import { namesOfPorts } from './port-names';
import type { MidiGateway, MidiStatus, Port, RawMessage } from './types';

const NOTE_ON = 0x90;
const NOTE_OFF = 0x80;
/** How long a note sent to an output is held; drum sounds do not heed it, other sounds must not hang. */
const HELD_MS = 50;

/**
 * The gateway to MIDI, the only one. Make one a page:
 *
 * ```ts
 * const gateway = midiGateway();
 * gateway.status$.subscribe(showPorts);
 * gateway.hits$.subscribe(keep);           // every input; `port` is the port's name
 * connectButton.onclick = () => void gateway.connect();
 * ```
 *
 * Hits are taken from the bytes of the message and carry the browser's own time stamp. A hit's `port` is the
 * name in `status$` ("Pad", and "Pad (2)" for a second port of that name). Everything but note-ons with a
 * velocity passes unheeded. Ports may come and go at any time: a port that returns is listened to once.
 * A port another program holds is listed with `connected: false`; where all are so the status is `busy`.
 * Calling `connect` again tries again, also for ports that were busy.
 */
// eslint-disable-next-line max-lines-per-function -- one MIDI access: its ports, listeners and status are kept together
export function midiGateway(): MidiGateway {
  const status$ = new BehaviorSubject<MidiStatus>({ kind: 'off' });
  const hits$ = new Subject<RawHit>();
  const messages$ = new Subject<RawMessage>();
  const listenedTo = new WeakSet<Input>();
  let inputNames = new Map<Input, string>();
  let outputNames = new Map<Output, string>();
  let inputsSeen: readonly Port[] = [];
  let outputsSeen: readonly Port[] = [];
  let asking: Promise<void> | null = null;
  let watching = false;

  function hear(input: Input, event: MessageEvent): void {
    try {
      const port = inputNames.get(input) ?? input.name;
      if (messages$.observed) messages$.next({ atMs: stampOf(event), port, bytes: event.message.data });
      const hit = hitOf(port, event);
      if (hit !== undefined) hits$.next(hit);
    } catch (error) {
      // A throwing listener would stop the listeners after it; the page still learns of the error.
      queueMicrotask(() => {
        throw error;
      });
    }
  }

  function look(): void {
    const { inputs, outputs } = WebMidi;
    inputNames = namesOfPorts(inputs, inputNames, (input) => input.name || 'MIDI input');
    outputNames = namesOfPorts(outputs, outputNames, (output) => output.name || 'MIDI output');
    for (const input of inputs) {
      if (listenedTo.has(input)) continue;
      listenedTo.add(input);
      input.addListener('midimessage', (event: MessageEvent) => {
        hear(input, event);
        // The library would go on to make notes and names of it, and throws at a message that is cut off.
        Object.assign(event.message, { isChannelMessage: false, isSystemMessage: false });
      });
    }
    inputsSeen = withGone(
      inputs.map((port) => shown(port, inputNames)),
      inputsSeen,
    );
    outputsSeen = withGone(
      outputs.map((port) => shown(port, outputNames)),
      outputsSeen,
    );
    const allBusy = inputs.length > 0 && inputs.every((input) => input.connection !== 'open');
    status$.next(
      allBusy ? { kind: 'failed', reason: 'busy' } : { kind: 'on', inputs: inputsSeen, outputs: outputsSeen },
    );
  }

  async function ask(): Promise<void> {
    const impossible = whyImpossible();
    if (impossible !== undefined) {
      status$.next({ kind: 'failed', reason: impossible });
      return;
    }
    if (!WebMidi.enabled) status$.next({ kind: 'asking' });
    try {
      await WebMidi.enable({ sysex: false, software: false, validation: false });
    } catch (error) {
      // A port that cannot be opened fails the whole call, though permission was given and others are open.
      if (!WebMidi.enabled) {
        status$.next({ kind: 'failed', reason: reasonOf(error) });
        return;
      }
    }
    if (!watching) WebMidi.addListener('portschanged', look);
    if (!watching) void watchPermission();
    watching = true;
    await Promise.allSettled([...WebMidi.inputs, ...WebMidi.outputs].map((port) => port.open()));
    look();
  }

  /** A player may take the permission back at any time; the ports then fall silent without a word. */
  async function watchPermission(): Promise<void> {
    const permission = await midiPermission();
    permission?.addEventListener('change', () => {
      if (permission.state === 'granted') look();
      else status$.next({ kind: 'failed', reason: 'refused' });
    });
  }

  return {
    status$: status$.asObservable(),
    hits$: hits$.asObservable(),
    messages$: messages$.asObservable(),
    // One request at a time: two would open every port twice.
    connect: () => (asking ??= ask().finally(() => (asking = null))),
    send(outputName, channel, note, velocity, atMs) {
      const output = [...outputNames.keys()].find(
        (port) => outputNames.get(port) === outputName || port.id === outputName,
      );
      if (output?.state !== 'connected') return;
      output.send([NOTE_ON + channel - 1, note, velocity], { time: atMs });
      output.send([NOTE_OFF + channel - 1, note, 0], { time: atMs + HELD_MS });
    },
  };
}

/** Whether this page may already use MIDI, so that `connect` would ask nothing. False where nobody can say. */
export async function midiAllowed(): Promise<boolean> {
  return (await midiPermission())?.state === 'granted';
}

/** Undefined where a browser can't say. */
async function midiPermission(): Promise<PermissionStatus | undefined> {
  try {
    return await navigator.permissions.query({ name: 'midi' as PermissionName });
  } catch {
    return undefined;
  }
}

/** A note-on with a velocity as a hit; undefined for every other message, whole or broken. */
function hitOf(port: string, event: MessageEvent): RawHit | undefined {
  const { statusByte, dataBytes } = event.message;
  if ((statusByte & 0xf0) !== NOTE_ON || dataBytes.length < 2) return undefined;
  const [note, velocity] = dataBytes;
  if (note > 127 || velocity < 1 || velocity > 127) return undefined;
  const atMs = stampOf(event);
  // Without a time it can be put nowhere; the monitor counts it.
  if (!Number.isFinite(atMs)) return undefined;
  return { atMs, port, channel: (statusByte & 0x0f) + 1, note, velocity };
}

/** The browser's time stamp, whatever it is; the time of arrival where a browser gives none, or 0 for none. */
function stampOf({ timestamp }: Partial<MessageEvent>): number {
  return timestamp === undefined || timestamp <= 0 ? performance.now() : timestamp;
}

function whyImpossible(): 'insecure' | 'unsupported' | undefined {
  if (globalThis.isSecureContext === false) return 'insecure';
  return WebMidi.supported ? undefined : 'unsupported';
}

/** Names as browsers give them; older ones say SecurityError for a refusal. */
function reasonOf(error: unknown): 'refused' | 'unsupported' | 'busy' {
  const name = error instanceof Error ? error.name : '';
  if (name === 'NotAllowedError' || name === 'SecurityError') return 'refused';
  return name === 'NotSupportedError' || name === 'TypeError' ? 'unsupported' : 'busy';
}

function shown<P extends Input | Output>(port: P, names: ReadonlyMap<P, string>): Port {
  return { id: port.id, name: names.get(port) ?? port.name, connected: port.connection === 'open' };
}

/** The ports that are there, and after them those that were, so that an unplugged kit can be named. */
function withGone(there: readonly Port[], before: readonly Port[]): readonly Port[] {
  const names = new Set(there.map((port) => port.name));
  const gone = before.filter((port) => !names.has(port.name));
  return [...there, ...gone.map((port) => ({ ...port, connected: false }))];
}
