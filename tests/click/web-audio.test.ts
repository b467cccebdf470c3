import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { audioClick } from '../../src/click/audio-click';
import type { SoundNow } from '../../src/click/types';
import { audioOut } from '../../src/click/web-audio';
import { gridOf } from '../../src/exercises/grid';
import { phraseNamed } from '../../src/exercises/phrase';

// What browsers do where there is nothing to sound by: the Web Audio API (resume may be refused or stay open) and the Media
// Capture standard (enumerateDevices).

beforeEach(() => vi.useFakeTimers());
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

const destination = { connect: () => undefined };

/** A system whose sound does as `resume` says. */
class System extends EventTarget {
  state: AudioContextState = 'suspended';
  readonly destination = destination;
  constructor(private readonly answer: () => Promise<void>) {
    super();
  }
  resume(): Promise<void> {
    return this.answer();
  }
  runs(): void {
    this.state = 'running';
    this.dispatchEvent(new Event('statechange'));
  }
  createGain() {
    return { gain: { value: 1 }, connect: () => undefined };
  }
}

function outOf(open: () => System) {
  const out = audioOut(open as unknown as () => AudioContext);
  const told: SoundNow[] = [];
  out.now$.subscribe((now) => told.push(now));
  return { out, told };
}

describe('a computer that cannot be heard', () => {
  it('without an audio system says so, and the click goes on without a word', async () => {
    const { out, told } = outOf(() => {
      throw new DOMException('no audio hardware', 'NotSupportedError');
    });
    await out.wake();
    expect(told).toEqual(['unknown', 'no device']);
    const click = audioClick(out);
    click.start(gridOf(phraseNamed('Flam accent'), { bpm: 120 }, 3000), 3000);
    vi.advanceTimersByTime(6000);
    click.stop();
  });

  it('that refuses is told as held back, and nothing is thrown', async () => {
    const refused = () => Promise.reject(new DOMException('no', 'NotAllowedError'));
    const { out, told } = outOf(() => new System(refused));
    await out.wake();
    out.begin();
    await vi.advanceTimersByTimeAsync(2000);
    expect(told[1]).toBe('held back');
    expect(new Set(told)).toEqual(new Set(['unknown', 'held back']));
  });

  it('that leaves the question open is told as held back after a second, and as sounding once it does', async () => {
    const system = new System(() => new Promise(() => undefined));
    const { out, told } = outOf(() => system);
    const woken = out.wake();
    await vi.advanceTimersByTimeAsync(999);
    expect(told).toEqual(['unknown']);
    await vi.advanceTimersByTimeAsync(1);
    await woken;
    expect(told).toEqual(['unknown', 'held back']);
    system.runs();
    await vi.advanceTimersByTimeAsync(0);
    expect(told.at(-1)).toBe('sounds');
    expect(vi.getTimerCount()).toBe(0);
  });

  it.each([
    [[], 'no device'],
    [[{ kind: 'audioinput' }], 'no device'],
    [[{ kind: 'audiooutput' }], 'sounds'],
  ] as const)('of a browser that lists outputs, with %j: %s', async (devices, now) => {
    vi.stubGlobal(
      'AudioContext',
      class {
        setSinkId = undefined;
      },
    );
    (globalThis.AudioContext.prototype as { setSinkId?: unknown }).setSinkId = () => undefined;
    vi.stubGlobal('navigator', {
      mediaDevices: { enumerateDevices: () => Promise.resolve(devices), addEventListener: () => undefined },
    });
    const system: System = new System(() => Promise.resolve(system.runs()));
    const { out, told } = outOf(() => system);
    await out.wake();
    await vi.advanceTimersByTimeAsync(0);
    expect(told.at(-1)).toBe(now);
  });
});
