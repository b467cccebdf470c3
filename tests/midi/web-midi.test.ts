import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { WebMidi } from 'webmidi';
import { midiAllowed, midiGateway } from '../../src/midi/web-midi';
import type { MidiGateway, MidiStatus } from '../../src/midi/types';
import type { RawHit } from '../../src/stroke';
import { installFakeMidi, type FakeMidi, type FakeMidiMode } from '../fake-midi';

// Sources: note-on, note-off by velocity 0, running formats: MIDI 1.0, channel voice messages.
// What a browser does with ports: Web MIDI API, sections on MIDIPort state and connection.

interface Page {
  readonly midi: FakeMidi;
  readonly gateway: MidiGateway;
  readonly hits: RawHit[];
  status(): MidiStatus;
}

function page(mode: FakeMidiMode = 'granted'): Page {
  const window: { navigator: object; isSecureContext?: boolean } = { navigator: {} };
  const midi = installFakeMidi(window);
  midi.setMode(mode);
  vi.stubGlobal('window', window);
  vi.stubGlobal('navigator', window.navigator);
  vi.stubGlobal('isSecureContext', window.isSecureContext);
  const gateway = midiGateway();
  const hits: RawHit[] = [];
  let latest: MidiStatus = { kind: 'off' };
  gateway.status$.subscribe((status) => (latest = status));
  gateway.hits$.subscribe((hit) => hits.push(hit));
  return { midi, gateway, hits, status: () => latest };
}

const settled = (): Promise<void> => new Promise((done) => setTimeout(done, 0));
const portNames = (status: MidiStatus): string[] =>
  status.kind === 'on' ? status.inputs.map((port) => (port.connected ? port.name : `${port.name} gone`)) : [];

let warned: ReturnType<typeof vi.spyOn>;
beforeEach(() => {
  warned = vi.spyOn(console, 'warn');
});

afterEach(async () => {
  await WebMidi.disable();
  expect(warned).not.toHaveBeenCalled();
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
});

describe('what comes in', () => {
  it('gives every velocity from 1 to 127 as it was sent, with its time stamp, note, channel and port', async () => {
    const { midi, gateway, hits } = page();
    const kit = midi.addInput('Kit A');
    await gateway.connect();
    for (let velocity = 1; velocity <= 127; velocity += 1)
      kit.send([0x99, 38, velocity], 12345.678 + velocity);
    expect(hits.map((hit) => hit.velocity)).toEqual(Array.from({ length: 127 }, (_, i) => i + 1));
    expect(hits[100]).toEqual({ atMs: 12446.678, port: 'Kit A', channel: 10, note: 38, velocity: 101 });
  });

  it('takes a note-on of velocity 0 for the note-off it is', async () => {
    const { midi, gateway, hits } = page();
    const kit = midi.addInput('Kit A');
    await gateway.connect();
    kit.send([0x99, 38, 0]);
    kit.send([0x89, 38, 64]);
    expect(hits).toEqual([]);
  });

  it('drops what is broken or has no finite time, tells the monitor of it, and goes on', async () => {
    const { midi, gateway, hits } = page();
    const messages: number[] = [];
    gateway.messages$.subscribe(({ bytes }) => messages.push(bytes.length));
    const kit = midi.addInput('Kit A');
    await gateway.connect();
    for (const bytes of [[0x99], [0x89], [0xb9], [0xc9], [0xe9], [0xf2], [0xf3], [38], []])
      kit.send(bytes, 5);
    for (const stamp of [NaN, Infinity, -Infinity]) kit.send([0x99, 38, 90], stamp);
    kit.send([0x99, 38, 91], 20);
    expect(messages).toEqual([1, 1, 1, 1, 1, 1, 1, 1, 0, 3, 3, 3, 3]);
    expect(hits.filter(({ atMs }) => !Number.isFinite(atMs))).toEqual([]);
    expect(hits.at(-1)).toMatchObject({ atMs: 20, velocity: 91 });
  });

  it('hears note-ons on all sixteen channels', async () => {
    const { midi, gateway, hits } = page();
    const pad = midi.addInput('Pad');
    await gateway.connect();
    for (let channel = 0; channel < 16; channel += 1) pad.send([0x90 + channel, 60, 80]);
    expect(hits.map((hit) => hit.channel)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16]);
  });

  it('lets controllers, aftertouch, clock and active sensing pass, a flood of them too', async () => {
    const { midi, gateway, hits } = page();
    const kit = midi.addInput('Kit A');
    await gateway.connect();
    for (let i = 0; i < 5000; i += 1) {
      kit.send([0xb9, 4, i % 128]);
      kit.send([0xa9, 49, 127]);
      kit.send([0xd9, i % 128]);
      kit.send([0xf8]);
      kit.send([0xfe]);
      if (i % 1000 === 0) kit.send([0x99, 38, 100], 1000 + i);
    }
    expect(hits.map((hit) => hit.atMs)).toEqual([1000, 2000, 3000, 4000, 5000]);
  });

  it('loses none of 10,000 strokes at 1,000 a second', async () => {
    const { midi, gateway, hits } = page();
    const kit = midi.addInput('Kit A');
    await gateway.connect();
    for (let i = 0; i < 10_000; i += 1) kit.send([0x99, 38, (i % 127) + 1], 1 + i);
    expect(hits).toHaveLength(10_000);
    expect(hits.every((hit, i) => hit.atMs === 1 + i && hit.velocity === (i % 127) + 1)).toBe(true);
  });

  it('gives the note as sent whatever octave names are in use', async () => {
    const { midi, gateway, hits } = page();
    const kit = midi.addInput('Kit A');
    await gateway.connect();
    WebMidi.octaveOffset = 1;
    kit.send([0x99, 38, 100]);
    WebMidi.octaveOffset = 0;
    expect(hits[0].note).toBe(38);
  });
});

describe('several ports at once', () => {
  it('one note on two ports within a millisecond is two hits, each with its port', async () => {
    const { midi, gateway, hits } = page();
    const [right, left] = [midi.addInput('Right'), midi.addInput('Left')];
    await gateway.connect();
    right.send([0x99, 38, 100], 1000);
    left.send([0x99, 38, 97], 1000.4);
    expect(hits.map(({ port, atMs, velocity }) => [port, atMs, velocity])).toEqual([
      ['Right', 1000, 100],
      ['Left', 1000.4, 97],
    ]);
  });

  it('the monitor has every message with its port and bytes, chokes and pedal too, before the hit it may be', async () => {
    const { midi, gateway } = page();
    const kit = midi.addInput('Kit');
    const seen: string[] = [];
    gateway.messages$.subscribe(({ port, bytes }) => seen.push(`${port} ${Array.from(bytes).join(' ')}`));
    gateway.hits$.subscribe(({ note }) => seen.push(`hit ${note}`));
    await gateway.connect();
    kit.send([0xb9, 4, 90]);
    kit.send([0x99, 46, 80]);
    kit.send([0xa9, 49, 127]);
    kit.send([0xfe]);
    expect(seen).toEqual(['Kit 185 4 90', 'Kit 153 46 80', 'hit 46', 'Kit 169 49 127', 'Kit 254']);
  });
});

describe('ports that come and go', () => {
  it('hears a port that was unplugged and plugged in again once a stroke', async () => {
    const { midi, gateway, hits, status } = page();
    const kit = midi.addInput('Kit A');
    await gateway.connect();
    kit.send([0x99, 38, 100], 1);
    for (let time = 0; time < 3; time += 1) {
      kit.unplug();
      await settled();
      expect(portNames(status())).toEqual(['Kit A gone']);
      kit.send([0x99, 38, 100], 2);
      kit.plug();
      await settled();
      expect(portNames(status())).toEqual(['Kit A']);
    }
    kit.send([0x99, 38, 101], 3);
    expect(hits.map((hit) => hit.atMs)).toEqual([1, 3]);
  });

  it('hears a kit that returns under a new id, by the same name', async () => {
    const { midi, gateway, hits, status } = page();
    const kit = midi.addInput('Kit A', { id: 'socket-1' });
    await gateway.connect();
    kit.unplug();
    await settled();
    const again = midi.addInput('Kit A', { id: 'socket-2' });
    await settled();
    again.send([0x99, 38, 100], 5);
    expect(hits).toEqual([{ atMs: 5, port: 'Kit A', channel: 10, note: 38, velocity: 100 }]);
    expect(portNames(status())).toEqual(['Kit A']);
  });

  it('hears a kit plugged in after the page asked', async () => {
    const { midi, gateway, hits, status } = page();
    await gateway.connect();
    expect(status()).toEqual({ kind: 'on', inputs: [], outputs: [] });
    const kit = midi.addInput('Kit A');
    await settled();
    kit.send([0x99, 38, 100], 5);
    expect(hits).toHaveLength(1);
  });

  it('tells two ports of one name apart, also when the first has gone', async () => {
    const { midi, gateway, hits, status } = page();
    const first = midi.addInput('Pad');
    const second = midi.addInput('Pad');
    await gateway.connect();
    expect(portNames(status())).toEqual(['Pad', 'Pad (2)']);
    first.send([0x99, 38, 100], 1);
    second.send([0x99, 38, 90], 2);
    first.unplug();
    await settled();
    second.send([0x99, 38, 80], 3);
    expect(hits.map((hit) => hit.port)).toEqual(['Pad', 'Pad (2)', 'Pad (2)']);
  });

  it('asks once where connect is called twice, and hears each stroke once', async () => {
    const { midi, gateway, hits } = page();
    const kit = midi.addInput('Kit A');
    await Promise.all([gateway.connect(), gateway.connect()]);
    await gateway.connect();
    kit.send([0x99, 38, 100], 1);
    expect(hits).toHaveLength(1);
    expect(midi.requests).toEqual([{ sysex: false, software: false }]);
  });
});

describe('what can be wrong', () => {
  it.each([
    ['denied', 'refused'],
    ['unsupported', 'unsupported'],
    ['insecure', 'insecure'],
    ['no-driver', 'busy'],
  ] as const)('a browser that is %s gives the status failed, %s', async (mode, reason) => {
    const { gateway, status } = page(mode);
    await gateway.connect();
    expect(status()).toEqual({ kind: 'failed', reason });
  });

  it('can be tried again after a refusal', async () => {
    const { midi, gateway, status } = page('denied');
    midi.addInput('Kit A');
    await gateway.connect();
    midi.setMode('granted');
    await gateway.connect();
    expect(portNames(status())).toEqual(['Kit A']);
  });

  it('is busy where another program holds the only port, and hears it when that one lets go', async () => {
    const { midi, gateway, hits, status } = page();
    const kit = midi.addInput('Kit A', { busy: true });
    await gateway.connect();
    expect(status()).toEqual({ kind: 'failed', reason: 'busy' });
    kit.busy = false;
    await gateway.connect();
    kit.send([0x99, 38, 100], 1);
    expect(portNames(status())).toEqual(['Kit A']);
    expect(hits).toHaveLength(1);
  });

  it('hears the other ports where one is busy', async () => {
    const { midi, gateway, hits, status } = page();
    midi.addInput('Held', { busy: true });
    const kit = midi.addInput('Kit A');
    await gateway.connect();
    expect(portNames(status())).toEqual(['Held gone', 'Kit A']);
    kit.send([0x99, 38, 100], 1);
    expect(hits).toHaveLength(1);
  });

  it('drops a note-on that is cut short or whose velocity is no data byte', async () => {
    const { midi, gateway, hits } = page();
    const kit = midi.addInput('Kit A');
    await gateway.connect();
    kit.send([0x99, 38], 1);
    kit.send([0x99, 38, 200], 2);
    expect(hits).toEqual([]);
  });
});

describe('a page that was allowed before', () => {
  const answering = (state: string) => ({ permissions: { query: () => Promise.resolve({ state }) } });

  it('need not be asked again', async () => {
    vi.stubGlobal('navigator', answering('granted'));
    expect(await midiAllowed()).toBe(true);
  });

  it('is asked where the browser would prompt, or cannot say', async () => {
    vi.stubGlobal('navigator', answering('prompt'));
    expect(await midiAllowed()).toBe(false);
    vi.stubGlobal('navigator', {});
    expect(await midiAllowed()).toBe(false);
  });
});

// Source: Permissions API, PermissionStatus fires "change" when its state does.
describe('a permission that is taken back', () => {
  it('is told as refused, and given again the ports are there', async () => {
    const { gateway, status, midi } = page();
    midi.addInput('Kit A');
    const permission = Object.assign(new EventTarget(), { state: 'granted' });
    Object.assign(navigator, { permissions: { query: () => Promise.resolve(permission) } });
    await gateway.connect();
    await settled();
    permission.state = 'denied';
    permission.dispatchEvent(new Event('change'));
    expect(status()).toEqual({ kind: 'failed', reason: 'refused' });
    permission.state = 'granted';
    permission.dispatchEvent(new Event('change'));
    expect(portNames(status())).toEqual(['Kit A']);
  });
});

describe('what goes out', () => {
  it('sends a note with its time, and its end 50 ms later', async () => {
    const { midi, gateway } = page();
    const module = midi.addOutput('Kit A');
    await gateway.connect();
    gateway.send('Kit A', 10, 37, 90, 5000.25);
    expect(module.sent).toEqual([
      { bytes: [0x99, 37, 90], timestamp: 5000.25 },
      { bytes: [0x89, 37, 0], timestamp: 5050.25 },
    ]);
  });

  it('ignores an output that nobody knows or that has gone', async () => {
    const { midi, gateway } = page();
    const module = midi.addOutput('Kit A');
    await gateway.connect();
    gateway.send('Kit B', 10, 37, 90, 1);
    module.unplug();
    await settled();
    gateway.send('Kit A', 10, 37, 90, 1);
    expect(module.sent).toEqual([]);
  });
});
