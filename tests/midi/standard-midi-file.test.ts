import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { parseMidi, type MidiEvent } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { InputError } from '../../src/errors';
import { phraseNamed, phraseFromText } from '../../src/exercises/phrase';
import type { Phrase } from '../../src/exercises/types';
import { readMidi, takeFromMidi, writePhraseMidi, writeTakeMidi } from '../../src/midi/standard-midi-file';
import { modelTake } from '../../src/model/model-player';
import { gradeTake } from '../../src/take/grade-take';

const bytesOf = (hex: string): Uint8Array => Uint8Array.from(Buffer.from(hex.replaceAll(/\s/g, ''), 'hex'));

/** The two examples printed in Standard MIDI Files 1.0 (RP-001): the same music in format 0 and format 1. */
const EXAMPLE_0 = bytesOf(
  '4d546864000000060000000100604d54726b0000003b00ff58040402180800ff510307a12000c00500c12e00c246009230' +
    '60003c606091434060904c208140823040003c400081434000804c4000ff2f00',
);
const EXAMPLE_1 = bytesOf(
  '4d546864000000060001000400604d54726b0000001400ff58040402180800ff510307a1208300ff2f004d54726b00000010' +
    '00c0058140904c2081404c0000ff2f004d54726b0000000f00c12e609143408220430000ff2f004d54726b0000001500c2' +
    '4600923060003c6083003000003c0000ff2f00',
);

/** A file of format 0 with one track, its events in hex; the end of track is added unless told otherwise. */
function fileOf(events: string, { division = '0060', end = '00ff2f00' } = {}): Uint8Array {
  const track = bytesOf(events + end);
  const length = track.length.toString(16).padStart(8, '0');
  return bytesOf(
    `4d54686400000006 0000 0001 ${division} 4d54726b${length}${Buffer.from(track).toString('hex')}`,
  );
}

const notesOf = (bytes: Uint8Array) =>
  readMidi(bytes)
    .tracks.flatMap((track) => track.notes)
    .sort((a, b) => a.tick - b.tick || a.note - b.note);

describe('the examples of Standard MIDI Files 1.0', () => {
  it.each([
    ['format 0', EXAMPLE_0, 0, 1],
    ['format 1', EXAMPLE_1, 1, 4],
  ] as const)('%s has the notes the standard prints', (_, bytes, format, tracks) => {
    const contents = readMidi(bytes);
    expect(contents.format).toBe(format);
    expect(contents.ticksPerQuarter).toBe(96);
    expect(contents.tracks).toHaveLength(tracks);
    expect(contents.tempos).toEqual([{ tick: 0, atMs: 0, usPerQuarter: 500_000 }]);
    expect(contents.meters).toEqual([{ tick: 0, beats: 4, unit: 4 }]);
    // Note, tick, length in ticks, velocity, channel, and at 120 bpm ms: RP-001.
    expect(notesOf(bytes).map((n) => [n.note, n.tick, n.lengthTicks, n.velocity, n.channel, n.atMs])).toEqual(
      [
        [48, 0, 384, 96, 3, 0],
        [60, 0, 384, 96, 3, 0],
        [67, 96, 288, 64, 2, 500],
        [76, 192, 192, 32, 1, 1000],
      ],
    );
  });

  it('skips chunks it does not know, by their length', () => {
    const alien = bytesOf('58597a7a00000003010203');
    const whole = Uint8Array.from([...EXAMPLE_0.subarray(0, 14), ...alien, ...EXAMPLE_0.subarray(14)]);
    expect(readMidi(whole)).toEqual(readMidi(EXAMPLE_0));
  });
});

describe('what the standard says of numbers and times', () => {
  // The table of variable-length quantities of RP-001, as far as a delta time shows it.
  it.each([
    ['00', 0x00],
    ['40', 0x40],
    ['7f', 0x7f],
    ['8100', 0x80],
    ['c000', 0x2000],
    ['ff7f', 0x3fff],
    ['818000', 0x4000],
    ['c08000', 0x100000],
    ['ffff7f', 0x1fffff],
    ['81808000', 0x200000],
    ['c0808000', 0x8000000],
    ['ffffff7f', 0xfffffff],
  ])('the delta time %s is %d ticks', (hex, ticks) => {
    expect(notesOf(fileOf(`${hex}992640`))[0].tick).toBe(ticks);
  });

  it('6144 ticks of 96 a quarter at 500000 µs are 32 s', () => {
    expect(notesOf(fileOf('b000992640'))[0]).toMatchObject({ tick: 6144, atMs: 32_000 });
  });

  it('follows a tempo map: a quarter at 120 bpm, then one at 60, are 1500 ms', () => {
    // 0F 42 40 is 1 000 000 µs a quarter.
    expect(notesOf(fileOf('00ff510307a120 60ff51030f4240 60992640'))[0].atMs).toBe(1500);
  });

  it('reads a time signature of 6/8', () => {
    expect(readMidi(fileOf('00ff580406032408')).meters).toEqual([{ tick: 0, beats: 6, unit: 8 }]);
  });

  it('keeps to running status, and ends a note by note-on velocity 0, which is no stroke', () => {
    const notes = notesOf(fileOf('00992640 602600 602650 602600'));
    expect(notes.map((n) => [n.tick, n.velocity, n.lengthTicks])).toEqual([
      [0, 64, 96],
      [192, 80, 96],
    ]);
  });

  it('passes over system exclusive messages, as the standard stores them', () => {
    expect(notesOf(fileOf('00f00543120007f7 00992640'))).toHaveLength(1);
  });

  it('reads Latin-1 where a name is no UTF-8', () => {
    expect(readMidi(fileOf('00ff0301e9')).tracks[0].name).toBe('é');
    expect(readMidi(fileOf('00ff0302c3a9')).tracks[0].name).toBe('é');
  });
});

describe('a file that is not sound is refused with the place', () => {
  it.each([
    ['is empty', new Uint8Array(), 'byte 0 must be a MIDI file: it is too short for one'],
    ['is no MIDI', bytesOf('7b'.repeat(20)), 'byte 0 must begin with "MThd" to be a MIDI file, got "{{{{"'],
    [
      'is cut in a track',
      EXAMPLE_0.subarray(0, 60),
      'byte 22 must hold the 59 bytes its chunk is said to have (the file seems cut off)',
    ],
    [
      'is cut after two tracks',
      EXAMPLE_1.subarray(0, 66),
      'byte 66 must have its 4 tracks, got 2 (the file seems cut off)',
    ],
    [
      'is of format 2',
      bytesOf('4d54686400000006 0002 0001 0060 4d54726b00000004 00ff2f00'),
      'byte 8 must be MIDI file format 0 or 1, got 2 (format 2 holds patterns, not a take)',
    ],
    [
      'counts SMPTE frames',
      fileOf('', { division: 'e250' }),
      'byte 12 must be in ticks a quarter: time in SMPTE frames has no beats to grade against',
    ],
    ['has no ticks', fileOf('', { division: '0000' }), 'byte 12 must be at least 1 tick a quarter, got 0'],
    [
      'begins with running status',
      fileOf('002640'),
      'track 1, byte 23 must be a status byte: there is none to run on with, got "26h"',
    ],
    [
      'runs on after system exclusive',
      fileOf('00992640 00f001f7 002640'),
      'track 1, byte 31 must be a status byte: there is none to run on with, got "26h"',
    ],
    [
      'has a data byte of FEh',
      fileOf('009926fe40'),
      'track 1, byte 25 must be a data byte, 00h to 7Fh, got "FEh"',
    ],
    [
      'has a real-time byte for an event',
      fileOf('00f8'),
      'track 1, byte 23 must be an event a file may hold, got "F8h"',
    ],
    [
      'has a number of five bytes',
      fileOf('8180808000992640'),
      'track 1, byte 22 must be a number of at most four bytes',
    ],
    [
      'is cut in a message',
      fileOf('0099', { end: '' }),
      'track 1, byte 24 must go on (the file seems cut off)',
    ],
    [
      'has no end of track',
      fileOf('00992640', { end: '' }),
      'track 1, byte 26 must be an end of track (FF 2F 00)',
    ],
    [
      'has a meta event past its end',
      fileOf('00ff017f4142', { end: '' }),
      'track 1, byte 26 must hold the 127 bytes of its meta event (the file seems cut off)',
    ],
    [
      'has a tempo of two bytes',
      fileOf('00ff51020102'),
      'track 1, byte 25 must be 3, the length of this meta event, got "02h"',
    ],
    [
      'has a tempo of nothing',
      fileOf('00ff5103000000'),
      'track 1, byte 26 must be a tempo of at least 1 µs a quarter, got "00h"',
    ],
  ])('%s', (_, bytes, message) => {
    expect(() => readMidi(bytes)).toThrow(message);
    expect(() => readMidi(bytes)).toThrow(InputError);
  });

  it('refuses a chunk of 4 GB without asking for the memory', () => {
    const bytes = bytesOf('4d54686400000006 0000 0001 0060 4d54726bffffffff 00ff2f00');
    expect(() => readMidi(bytes)).toThrow('byte 22 must hold the 4294967295 bytes');
  });

  it('throws InputError and nothing else, whatever the bytes (law)', () => {
    const broken = fc.oneof(
      fc.uint8Array({ maxLength: 80 }),
      fc
        .tuple(fc.constantFrom(EXAMPLE_0, EXAMPLE_1), fc.nat(), fc.nat(255))
        .map(([bytes, at, value]) => bytes.with(at % bytes.length, value)),
      fc.uint8Array({ maxLength: 40 }).map((track) => fileOf(Buffer.from(track).toString('hex'))),
    );
    fc.assert(
      fc.property(broken, (bytes) => {
        try {
          readMidi(bytes);
        } catch (error) {
          expect(error).toBeInstanceOf(InputError);
        }
      }),
      { numRuns: 500 },
    );
  });
});

const PARADIDDLE = phraseNamed('Single paradiddle, accent walk');
const { take } = modelTake({ phrase: PARADIDDLE, bpm: 84, seed: 1, cycles: 2 });
const HALF_TICK_84 = 60_000 / 84 / 960 / 2;

describe('a phrase as MIDI', () => {
  const flams: Phrase = {
    ...phraseFromText('{l}R(l)[RL]- {rr}Lrlr', { beatsPerBar: 2, partialsPerBeat: 4, cycles: 1 }),
    feet: 'K--h',
  };

  it('is read back by another reader with 960 ticks a quarter, tempo, time signature and names', () => {
    const { header, tracks } = parseMidi(writePhraseMidi(PARADIDDLE, { bpm: 84 }));
    expect(header).toMatchObject({ format: 1, numTracks: 2, ticksPerBeat: 960 });
    expect(tracks[0].map(({ type }) => type)).toEqual([
      'trackName',
      'timeSignature',
      'setTempo',
      'endOfTrack',
    ]);
    expect(tracks[0][0]).toMatchObject({ text: 'Single paradiddle, accent walk' });
    expect(tracks[0][1]).toMatchObject({ numerator: 4, denominator: 4, metronome: 24, thirtyseconds: 8 });
    expect(tracks[0][2]).toMatchObject({ microsecondsPerBeat: 714_286 });
    expect(tracks[1][0]).toMatchObject({ type: 'trackName', text: 'Target' });
    expect(tracks[1].filter(({ type }) => type === 'text')).toHaveLength(1);
    expect(tracks[1].filter(({ type }) => type === 'noteOn')).toHaveLength(8 * 4 * 16);
  });

  it('has the sticking as lyrics, where its strokes are', () => {
    const [, target] = readMidi(writePhraseMidi(PARADIDDLE, { bpm: 84 })).tracks;
    expect(
      target.lyrics
        .slice(0, 8)
        .map(({ text }) => text)
        .join(''),
    ).toBe('RlrrLrll');
    expect(target.lyrics.map(({ tick }) => tick)).toEqual(target.notes.map(({ tick }) => tick));
    expect(target.notes[5]).toMatchObject({ tick: 5 * 240, note: 38, channel: 10, velocity: 40 });
  });

  it('puts a grace 30 ms ahead, two 60 and 30 ms, after a bar of silence where one is due first', () => {
    const [, target] = readMidi(writePhraseMidi(flams, { bpm: 60 })).tracks;
    const hands = target.notes.filter(({ note }) => note === 38);
    // At 60 bpm a partial lasts 250 ms and a bar of two beats 2000 ms.
    expect(hands.map(({ atMs, velocity }) => [Math.round(atMs), velocity])).toEqual([
      [1970, 30],
      [2000, 101],
      [2250, 28],
      [2500, 101],
      [2500, 101],
      [2940, 30],
      [2970, 30],
      [3000, 101],
      [3250, 40],
      [3500, 40],
      [3750, 40],
    ]);
    expect(target.lyrics.map(({ text }) => text)).toEqual(['{l}R', '(l)', '[RL]', '{rr}L', 'r', 'l', 'r']);
    const feet = target.notes.filter(({ note }) => note !== 38);
    // Bass Drum 1 is 36 and Pedal Hi-Hat 44 in the General MIDI percussion map.
    expect(feet.map(({ atMs, note, velocity }) => [Math.round(atMs), note, velocity])).toEqual([
      [2000, 36, 101],
      [2750, 44, 40],
      [3000, 36, 101],
      [3750, 44, 40],
    ]);
  });

  it('lets a note last 50 ms, or until it comes again', () => {
    const [, target] = readMidi(writePhraseMidi(flams, { bpm: 60 })).tracks;
    const lengthsMs = target.notes.map(({ lengthTicks }) => ((lengthTicks ?? NaN) * 1000) / 960);
    // The graces 30 ms ahead on the same note; of a unison on one note the first is cut by the second.
    expect(lengthsMs.filter((ms) => ms > 29 && ms < 31)).toHaveLength(3);
    expect(lengthsMs.filter((ms) => ms === 0)).toHaveLength(1);
    expect(lengthsMs.filter((ms) => ms === 50)).toHaveLength(target.notes.length - 4);
  });

  it("plays each hand on the rig's own surface", () => {
    const { take: two } = modelTake({ phrase: PARADIDDLE, bpm: 84, seed: 1, surfaces: 2 });
    const [, target] = readMidi(writePhraseMidi(PARADIDDLE, { bpm: 84 }, two.rig)).tracks;
    expect(target.notes.slice(0, 8).map(({ note }) => note)).toEqual([38, 48, 38, 38, 48, 38, 48, 48]);
  });

  it('has every beat of a ramp in its tempo map, without drift', () => {
    const tempo = {
      ramp: [
        { bar: 0, bpm: 60 },
        { bar: 4, bpm: 120 },
      ],
    };
    const { tempos, ticksPerQuarter } = readMidi(writePhraseMidi({ ...PARADIDDLE, cycles: 2 }, tempo));
    expect(tempos[0].usPerQuarter).toBe(1_000_000);
    // Straight in ms a beat: beat 8 of 16 is half way from 1000 to 500 ms.
    expect(tempos.find(({ tick }) => tick === 8 * ticksPerQuarter)?.usPerQuarter).toBe(750_000);
    expect(tempos[16]).toMatchObject({ tick: 16 * 960, usPerQuarter: 500_000 });
    // 16 beats of 1000, 968.75, … 531.25 ms are 12 250 ms.
    expect(tempos[16].atMs).toBeCloseTo(12_250, 3);
  });

  it('says the time signature again where a bar has other beats', () => {
    const phrase: Phrase = {
      ...PARADIDDLE,
      cycles: 1,
      bars: [
        { variation: 'four', sticking: 'Rlrr Lrll Rlrr Lrll' },
        { variation: 'three', sticking: 'Rlrr Lrll Rlrr', beatsPerBar: 3 },
      ],
    };
    expect(readMidi(writePhraseMidi(phrase, { bpm: 84 })).meters).toEqual([
      { tick: 0, beats: 4, unit: 4 },
      { tick: 4 * 960, beats: 3, unit: 4 },
    ]);
  });

  it('says nothing in a bar to say, and sounds one to listen to', () => {
    const [bar] = PARADIDDLE.bars;
    const phrase: Phrase = {
      ...PARADIDDLE,
      cycles: 1,
      bars: [
        { ...bar, role: 'say' },
        { ...bar, role: 'listen' },
      ],
    };
    const [, target] = readMidi(writePhraseMidi(phrase, { bpm: 84 })).tracks;
    expect(target.notes).toHaveLength(16);
    expect(target.notes[0].tick).toBe(4 * 960);
  });

  it('carries a name with any letters', () => {
    const named = { ...PARADIDDLE, title: 'Übung № 1 🥁' };
    const bytes = writePhraseMidi(named, { bpm: 84 });
    expect(readMidi(bytes).tracks[0].name).toBe('Übung № 1 🥁');
    expect(takeFromMidi(bytes, { fileName: 'x.mid' }).phrase).toEqual(named);
  });

  it('is graded by itself: played by a machine it holds', () => {
    const graded = gradeTake(takeFromMidi(writePhraseMidi(PARADIDDLE, { bpm: 84 }), { fileName: 'x.mid' }));
    expect(graded.counts).toMatchObject({ slots: 512, matched: 512, missed: 0, extra: 0 });
  });
});

describe('a take as MIDI', () => {
  it('comes back with all it held, its hits within half a tick', () => {
    const back = takeFromMidi(writeTakeMidi(take), { fileName: 'x.mid' });
    const { hits, ...head } = take;
    const { hits: hitsBack, ...headBack } = back;
    expect(headBack).toEqual(head);
    expect(hitsBack).toHaveLength(hits.length);
    const worst = Math.max(...hits.map((hit, index) => Math.abs(hit.atMs - hitsBack[index].atMs)));
    expect(worst).toBeLessThan(HALF_TICK_84 + 1e-6);
    expect(hitsBack.map(({ velocity, note, port, channel }) => [velocity, note, port, channel])).toEqual(
      hits.map(({ velocity, note, port, channel }) => [velocity, note, port, channel]),
    );
  });

  it('is off by under one tick whatever the tempo and the times (law)', () => {
    const bpms = fc.double({ min: 20, max: 400, noNaN: true });
    fc.assert(
      fc.property(
        bpms,
        bpms,
        fc.array(fc.double({ min: -3000, max: 60_000, noNaN: true }), { minLength: 2, maxLength: 40 }),
        (from, to, times) => {
          const hits = [...times]
            .sort((a, b) => a - b)
            .map((atMs, index) => ({ ...take.hits[0], note: 38 + (index % 3), atMs }));
          const ramped = {
            ...take,
            hits,
            tempo: {
              ramp: [
                { bar: 0, bpm: from },
                { bar: 6, bpm: to },
              ],
            },
          };
          const back = takeFromMidi(writeTakeMidi(ramped), { fileName: 'x.mid' });
          const tickMs = 60_000 / Math.min(from, to) / 960;
          hits.forEach((hit, index) => {
            expect(Math.abs(back.hits[index].atMs - hit.atMs)).toBeLessThan(tickMs);
          });
        },
      ),
      { numRuns: 100 },
    );
  });

  it('keeps a port a track, and two strokes on one tick', () => {
    const [first] = take.hits;
    const hits = [
      { ...first, atMs: 4000, port: 'Left pad' },
      { ...first, atMs: 4000.1, port: 'Right pad' },
      { ...first, atMs: 4000.2, port: 'Right pad', velocity: 12 },
      { ...first, atMs: 5000, port: 'Left pad' },
    ];
    const back = takeFromMidi(writeTakeMidi({ ...take, hits }), { fileName: 'x.mid' });
    const velocitiesOf = (port: string) =>
      back.hits.filter((hit) => hit.port === port).map(({ velocity }) => velocity);
    expect(velocitiesOf('Left pad')).toEqual([first.velocity, first.velocity]);
    expect(velocitiesOf('Right pad')).toEqual([first.velocity, 12]);
  });

  it('of free time comes back without a downbeat', () => {
    const back = takeFromMidi(writeTakeMidi({ ...take, downbeatMs: null }), { fileName: 'x.mid' });
    expect(back.downbeatMs).toBeNull();
    expect(Math.abs(back.hits[0].atMs - take.hits[0].atMs)).toBeLessThan(HALF_TICK_84 + 1e-6);
  });

  it('refuses what it carries where that is wrong, with the place', () => {
    const bytes = writeTakeMidi(take);
    const text = Buffer.from(bytes).toString('latin1');
    const changed = (from: string, to: string) =>
      Uint8Array.from(Buffer.from(text.replace(from, to), 'latin1'));
    expect(() => takeFromMidi(changed('"version":1', '"version":9'), { fileName: 'x.mid' })).toThrow(
      'track 2, tick 3840 must be version 1 of evenhand-midi, got 9',
    );
    expect(() => takeFromMidi(changed('"cycles":2', '"cycles":0'), { fileName: 'x.mid' })).toThrow(
      'phrase.cycles must be an integer 1–10000, got 0',
    );
    expect(() => takeFromMidi(changed('"phrase":{', '"phrase"!{'), { fileName: 'x.mid' })).toThrow(
      'track 2, tick 3840 must be a whole text',
    );
  });
});

describe('a foreign file', () => {
  /** The hits of a take as a sequencer would write them: no text, no target. */
  function foreign(options: { tempo?: string; leadTicks?: number } = {}): Uint8Array {
    const lead = options.leadTicks ?? 3840;
    const ticks = take.hits.map((hit) => Math.round(((hit.atMs - 4000) * 84 * 960) / 60_000) + lead);
    let before = 0;
    const events = take.hits.map((hit, index) => {
      const delta = ticks[index] - before;
      before = ticks[index];
      const variable = [((delta >> 14) & 0x7f) | 0x80, ((delta >> 7) & 0x7f) | 0x80, delta & 0x7f];
      return Buffer.from([...variable, 0x99, hit.note, hit.velocity]).toString('hex');
    });
    // 0A E6 2E is 714 286 µs a quarter, 84 bpm.
    return fileOf(`00ff5103${options.tempo ?? '0ae62e'}${events.join('')}`, { division: '03c0' });
  }
  const typed = {
    fileName: 'x.mid',
    sticking: 'Rlrr Lrll Rlrr Lrll|rLrr lRll rLrr lRll|rlRr lrLl rlRr lrLl|rlrR lrlL rlrR lrlL',
    partialsPerBeat: 4,
    bpm: 84,
  };

  it('is graded like the take it came from, by sticking and tempo', () => {
    const imported = takeFromMidi(foreign(), typed);
    expect(imported).toMatchObject({ source: 'imported', tempo: { bpm: 84 }, click: 'on' });
    expect(imported.phrase.cycles).toBe(2);
    expect(imported.downbeatMs).toBeCloseTo(4 * (60_000 / 84), 2);
    expect(imported.rig.surfaces).toEqual([
      { id: 'pad', name: 'Pad', port: '*', channel: 10, notes: [38], hand: null, trimDb: 0 },
    ]);
    const [a, b] = [gradeTake(imported), gradeTake(take)];
    expect(a.counts).toEqual(b.counts);
    expect(a.offsetMs).toBeCloseTo(b.offsetMs, 0);
    expect(a.measures.contrast?.value).toBeCloseTo(b.measures.contrast?.value ?? NaN, 6);
  });

  it('is graded by a phrase of ours', () => {
    const imported = takeFromMidi(foreign(), { fileName: 'x.mid', phrase: PARADIDDLE, bpm: 84 });
    expect(imported.phrase).toEqual(PARADIDDLE);
    expect(gradeTake(imported).counts.missed).toBe(0);
  });

  it('that begins in the second half of a bar loses no stroke', () => {
    // 3840 ticks are a bar: the first stroke is a beat and a quarter before the next bar line.
    const imported = takeFromMidi(foreign({ leadTicks: 3840 + 2640 }), typed);
    expect(imported.downbeatMs).toBeCloseTo(4 * (60_000 / 84), 2);
    expect(imported.hits[0].atMs).toBeGreaterThan(imported.downbeatMs ?? Infinity);
    const { counts } = gradeTake(imported);
    expect([counts.missed, counts.extra]).toEqual([0, 0]);
  });

  it('with another tempo than was played starts at its first stroke', () => {
    // Ticks at 84 bpm called 120 bpm (07 A1 20) are played at 120.
    const imported = takeFromMidi(foreign({ leadTicks: 1000 }), { ...typed, bpm: 84 });
    expect(imported.downbeatMs).toBe(0);
    const loose = takeFromMidi(foreign({ tempo: '07a120', leadTicks: 1000 }), typed);
    expect(loose.downbeatMs).toBe(loose.hits[0].atMs);
  });

  it('has a surface a hand where the notes are said, and only the notes that are wanted', () => {
    const bytes = fileOf('00992640 60993040 60992640 60992440 60993040');
    const how = { ...typed, sticking: 'RL', partialsPerBeat: 2, bpm: 120 };
    const hands = takeFromMidi(bytes, { ...how, right: [38], left: [48] });
    expect(hands.rig.surfaces.map(({ id, hand, notes }) => [id, hand, notes])).toEqual([
      ['right', 'R', [38]],
      ['left', 'L', [48]],
    ]);
    expect(hands.hits).toHaveLength(4);
    expect(takeFromMidi(bytes, { ...how, notes: [48] }).hits).toHaveLength(2);
    expect(() => takeFromMidi(bytes, { ...how, right: [38], left: [38] })).toThrow(
      'right must have no note that the left hand has, got 38',
    );
  });

  it.each([
    [
      {},
      'phrase is wanting: the file does not carry one; say which it is, and its tempo (--phrase NAME --bpm N, or --sticking TEXT --partials N --bpm N)',
    ],
    [{ sticking: 'Rlrr', partialsPerBeat: 4 }, 'bpm is wanting: say the tempo it was played at (--bpm N)'],
    [{ sticking: 'Rlrr', partialsPerBeat: 4, bpm: 1000 }, 'bpm must be a tempo from 20 to 400 bpm, got 1000'],
    [
      { sticking: 'Rlr', partialsPerBeat: 4, bpm: 84 },
      'sticking must fill 1 to 16 beats of 4 partials: it has 3 partials a bar',
    ],
    [{ sticking: 'Rlrr', bpm: 84 }, 'partials must be how many partials a beat has, 1 to 16'],
    [{ sticking: 'Rlqr', partialsPerBeat: 4, bpm: 84 }, 'line 1, column 3 must be R or L'],
    [{ phrase: PARADIDDLE, bpm: 84, notes: [1] }, 'hits must have at least 2 strokes to be a take, got 0'],
  ])('is refused with what is wanting: %o', (how, message) => {
    expect(() => takeFromMidi(EXAMPLE_0, { fileName: 'x.mid', ...how })).toThrow(message);
  });

  it('of days is refused before a grid is laid over it', () => {
    // 2²⁸ beats of half a second at a tick a quarter: over four years.
    const bytes = fileOf('00992640 ffffff7f992640', { division: '0001' });
    expect(() => takeFromMidi(bytes, typed)).toThrow('hits must end within 12 hours, got "134217727500 ms"');
  });
});

/** midicsv, a reader apart from ours and midi-file's: Debian's package of that name. */
const MIDICSV = spawnSync('midicsv', ['--help']).error === undefined;

describe('read by midicsv', () => {
  it('has the same notes, texts and tempos as midi-file reads', () => {
    if (!MIDICSV) {
      process.stdout.write('midicsv is not installed (apt-get install midicsv): one reader fewer\n');
    }
    const folder = mkdtempSync(join(tmpdir(), 'evenhand-midi-'));
    const written = [
      writePhraseMidi(PARADIDDLE, {
        ramp: [
          { bar: 0, bpm: 60 },
          { bar: 8, bpm: 132 },
        ],
      }),
      writePhraseMidi(phraseNamed('Flam paradiddle'), { bpm: 84 }),
      writeTakeMidi(take),
    ];
    for (const bytes of written) {
      const ours = rowsOf(parseMidi(bytes).tracks);
      expect(ours.length).toBeGreaterThan(100);
      if (!MIDICSV) continue;
      const file = join(folder, 'x.mid');
      writeFileSync(file, bytes);
      const csv = execFileSync('midicsv', [file], { encoding: 'latin1' });
      const theirs = csv.split('\n').flatMap((line) => {
        const [track, tick, type, ...rest] = line.split(', ');
        if (/^(Note_o\w+_c|Tempo)$/.test(type)) return [[track, tick, type, ...rest].join(' ')];
        return type === 'Lyric_t' ? [[track, tick, type, rest.join(', ').slice(1, -1)].join(' ')] : [];
      });
      expect(theirs).toEqual(ours);
    }
  });
});

function rowsOf(tracks: readonly (readonly MidiEvent[])[]): string[] {
  return tracks.flatMap((track, index) => {
    let tick = 0;
    return track.flatMap((event) => {
      tick += event.deltaTime;
      const head = `${index + 1} ${tick}`;
      if (event.type === 'noteOn' || event.type === 'noteOff') {
        const name = event.type === 'noteOn' ? 'Note_on_c' : 'Note_off_c';
        return [`${head} ${name} ${event.channel} ${event.noteNumber} ${event.velocity}`];
      }
      if (event.type === 'setTempo') return [`${head} Tempo ${event.microsecondsPerBeat}`];
      return event.type === 'lyrics' ? [`${head} Lyric_t ${event.text}`] : [];
    });
  });
}

describe('an hour', () => {
  it('of sixteenths at 120 bpm goes into a file within a second, and comes back', () => {
    const hour = modelTake({
      phrase: phraseNamed('Single paradiddle, accent walk'),
      bpm: 120,
      seed: 7,
      cycles: 450,
    }).take;
    const fromMs = process.cpuUsage().user / 1000;
    const bytes = writeTakeMidi(hour);
    // Of the processor, not of the clock: the machine may be shared. Half an hour took half a minute before.
    expect(process.cpuUsage().user / 1000 - fromMs).toBeLessThan(1000);
    expect(takeFromMidi(bytes, { fileName: 'hour.mid' }).hits).toHaveLength(hour.hits.length);
  });

  it('has no more notes than it was given, whichever ring when the next comes', () => {
    const hits = Array.from({ length: 40 }, (_, index) => ({
      atMs: 1000 + index * 7,
      port: 'Kit A',
      channel: 10,
      note: 38 + (index % 3),
      velocity: 90,
    }));
    const { take } = modelTake({
      phrase: phraseFromText('RLRL', { beatsPerBar: 1, partialsPerBeat: 4, cycles: 2 }),
      bpm: 90,
      seed: 1,
    });
    const { tracks } = parseMidi(writeTakeMidi({ ...take, hits }));
    const played = tracks[2].filter(({ type }) => type === 'noteOn' || type === 'noteOff');
    const ringing = new Set<number>();
    for (const event of played) {
      if (event.type === 'noteOn') {
        expect(ringing.has(event.noteNumber)).toBe(false);
        ringing.add(event.noteNumber);
      } else if (event.type === 'noteOff') expect(ringing.delete(event.noteNumber)).toBe(true);
    }
    expect([played.length, ringing.size]).toEqual([80, 0]);
  });
});
