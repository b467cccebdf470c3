import { describe, expect, it } from 'vitest';
import { MONITOR_KEPT, monitored, monitoredLabel, monitorText, noMessages } from '../../src/midi/monitor';

const message = (atMs: number, ...bytes: number[]) => ({ atMs, port: 'Kit', bytes });
const after = (...messages: ReturnType<typeof message>[]) => messages.reduce(monitored, noMessages);

// status bytes: MIDI 1.0
describe('the monitor', () => {
  it.each([
    [[0x89, 38, 64], 'note-offs'],
    [[0x99, 38, 0], 'note-ons with velocity 0'],
    [[0xa9, 49, 127], 'aftertouch (chokes)'],
    [[0xd9, 100], 'aftertouch (chokes)'],
    [[0xb9, 4, 90], 'controllers'],
    [[0xc9, 3], 'program changes'],
    [[0xe9, 0, 64], 'pitch bends'],
    [[0xf8], 'clock and active sensing'],
    [[0xfe], 'clock and active sensing'],
    [[0xf0, 0x7e, 0xf7], 'other system messages'],
    [[0x99], 'broken messages'],
    [[0x99, 38], 'broken messages'],
    [[0x99, 38, 200], 'broken messages'],
    [[], 'broken messages'],
  ])('counts %j as %s', (bytes, why) => {
    expect([...after(message(0, ...bytes)).unheeded]).toEqual([[why, 1]]);
  });

  it.each([NaN, Infinity, -Infinity])(
    'counts a message at %s as one without a time, and no note-on',
    (atMs) => {
      const { noteOns, unheeded, messages } = after(message(atMs, 0x99, 38, 100));
      expect([noteOns, [...unheeded], messages]).toEqual([0, [['messages without a finite time', 1]], []]);
    },
  );

  it('counts note-ons apart, and what conditioning makes of them', () => {
    const heard = after(message(0, 0x99, 38, 100), message(3, 0x99, 48, 12));
    const labelled = monitoredLabel(monitoredLabel(heard, 'stroke'), 'crosstalk');
    expect(labelled.noteOns).toBe(2);
    expect([...labelled.unheeded]).toEqual([['crosstalk', 1]]);
  });

  it('keeps the newest 200, and a flood of clock or active sensing pushes none of them out', () => {
    const notes = Array.from({ length: 250 }, (_, n) => message(n, 0x99, 38, 1 + (n % 127)));
    const flood = Array.from({ length: 1000 }, (_, n) => message(250 + n, 0xfe));
    const { messages } = after(...notes, ...flood);
    expect(messages).toHaveLength(MONITOR_KEPT);
    expect(messages[0].atMs).toBe(50);
  });

  it('is text for a bug report', () => {
    expect(
      monitorText(
        after(message(100, 0x99, 38, 101), message(150.25, 0x89, 38, 64), message(160, 0xb9, 4, 0)),
      ),
    ).toBe(
      [
        'Evenhand MIDI monitor',
        '1 note-ons',
        '1 note-offs unheeded',
        '1 controllers unheeded',
        '0.0 ms  Kit  99 26 65  note-on 38 velocity 101 channel 10',
        '50.3 ms  Kit  89 26 40  note-off 38 64 channel 10',
        '60.0 ms  Kit  B9 04 00  controller 4 0 channel 10',
        '',
      ].join('\n'),
    );
  });
});
