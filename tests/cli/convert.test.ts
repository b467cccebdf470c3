import { existsSync, mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { convert } from '../../src/cli/convert';
import { grade } from '../../src/cli/grade';
import { model } from '../../src/cli/model';
import { phrases } from '../../src/cli/phrases';
import type { Report } from '../../src/grading/types';
import { readMidi } from '../../src/midi/standard-midi-file';
import { readTake } from '../../src/sessions/take';

const folder = mkdtempSync(join(tmpdir(), 'evenhand-convert-'));
const out = (name: string): string => join(folder, name);
const LATE = 'recorded-sessions/left-late.take.json';
const TICK_MS = 60_000 / 84 / 960;

describe('convert', () => {
  it('takes a take to MIDI and back, each hit within a tick', () => {
    convert([LATE, out('late.mid')]);
    convert([out('late.mid'), out('late.take.json')]);
    const before = readTake(readFileSync(LATE, 'utf8'));
    const after = readTake(readFileSync(out('late.take.json'), 'utf8'));
    expect(after.hits).toHaveLength(before.hits.length);
    before.hits.forEach((hit, index) => {
      expect(Math.abs(after.hits[index].atMs - hit.atMs)).toBeLessThan(TICK_MS);
      expect([after.hits[index].note, after.hits[index].velocity]).toEqual([hit.note, hit.velocity]);
    });
    expect({ ...after, hits: [] }).toEqual({ ...before, hits: [] });
  });

  it('writes a row a slot as CSV, in time order, with the beat it is due on', () => {
    convert([LATE, out('late.csv')]);
    const rows = readFileSync(out('late.csv'), 'utf8').trimEnd().split('\r\n');
    expect(rows[0]).toBe(
      'bar,variation,slot,beat,hand,kind,status,level dB,deviation ms,wrong hand,wrong drum,judged dB,terms,counts for',
    );
    expect(rows).toHaveLength(1 + 512);
    expect(rows[16]).toMatch(/^1,RLRR LRLL,16,4.75,/);
    expect(rows[1]).toMatch(/^1,RLRR LRLL,1,1,R,accent,matched,-/);
  });

  it('overwrites nothing without --force, and knows its endings', () => {
    expect(() => convert([LATE, out('late.csv')])).toThrow('is there already; --force overwrites it');
    expect(() => convert([LATE, out('late.wav')])).toThrow('convert writes .mid, .csv or .take.json');
    expect(existsSync(out('late.wav'))).toBe(false);
    expect(() => convert([LATE])).toThrow('convert wants a take and a file to write');
  });
});

describe('grade, of a MIDI file', () => {
  it('by the phrase it carries: the same sentence as of the take', () => {
    convert([LATE, out('carries.mid')]);
    expect(grade([out('carries.mid')]).split('\n')[0]).toBe(grade([LATE]).split('\n')[0]);
  });

  it('by a phrase or a sticking that the user names, with notes for the hands', () => {
    convert(['recorded-sessions/two-pads-left-lead.take.json', out('two.mid')]);
    const named = ['--phrase', 'Single paradiddle, accent walk, left lead', '--bpm', '76'];
    const report = JSON.parse(
      grade([out('two.mid'), ...named, '--right', '38', '--left', '48', '--json']),
    ) as Report;
    expect(report.hands).toBe('known');
    expect(report.weakest?.measure).toBe('contrast');
    const one = JSON.parse(
      grade([
        out('two.mid'),
        '--sticking',
        'Lrll Rlrr Lrll Rlrr',
        '--partials',
        '4',
        '--bpm',
        '76',
        '--json',
      ]),
    ) as Report;
    expect(one.variations).toHaveLength(1);
  });

  it('of a player without a click: no tempo need be said, and what was planted is found', () => {
    const how = ['--phrase', 'Single paradiddle, accent walk', '--bpm', '88', '--ramp', '96', '--seed', '7'];
    model([...how, '--fault', 'leak-before:L:8', '--out', out('click.take.json')]);
    convert([out('click.take.json'), out('click.mid')]);
    const walk = ['--phrase', 'Single paradiddle, accent walk', '--free'];
    const report = JSON.parse(grade([out('click.mid'), ...walk, '--json'])) as Report;
    expect(report.fits).toBe(true);
    expect(report.weakest?.measure).toBe('leakBefore');
    expect(report.counts.matched).toBe(report.counts.slots);
    const printed = grade([out('click.mid'), ...walk]);
    // Over eight cycles of four bars from 88 to 96: first third to last, 2/3 of 8 bpm, near enough.
    expect(printed).toMatch(/free time: 91\.\d bpm on average; it got (4|5)\.\d bpm faster/);
    expect(printed).toContain('free time: no click, so no offset.');
  });

  it('a model take without a click tells nothing of its tempo, and is graded all the same', () => {
    model([
      '--phrase',
      'Single paradiddle, accent walk',
      '--bpm',
      '92',
      '--free',
      '--out',
      out('free.take.json'),
    ]);
    const take = readTake(readFileSync(out('free.take.json'), 'utf8'));
    expect([take.downbeatMs, take.click]).toEqual([null, 'none']);
    expect(grade([out('free.take.json')])).toMatch(
      /free time: 9[12]\.\d bpm on average; from the first third to the last it stayed/,
    );
    // By MIDI and back it is the same take.
    convert([out('free.take.json'), out('free.mid')]);
    expect(grade([out('free.mid')]).split('\n')[0]).toBe(grade([out('free.take.json')]).split('\n')[0]);
  });

  it('says what is wanting', () => {
    expect(() => grade([out('two.mid'), '--sticking', 'Lrll'])).toThrow('--sticking wants --partials');
    expect(() => grade([out('two.mid'), '--phrase', 'x', '--sticking', 'y', '--partials', '4'])).toThrow(
      'not both',
    );
  });
});

describe('phrases --musicxml', () => {
  it('writes notation, beside MIDI or alone, and overwrites nothing without --force', () => {
    const files = [out('flam.mid'), out('flam.musicxml')];
    const args = ['flam accent', '--midi', files[0], '--musicxml', files[1], '--bpm', '72'];
    expect(phrases(args)).toBe(files.map((file) => `${file}: Flam accent, 72 bpm\n`).join(''));
    const xml = readFileSync(files[1], 'utf8');
    expect(xml).toContain('<per-minute>72</per-minute>');
    expect(xml).toContain('<grace slash="yes"/>');
    expect(() => phrases(['flam accent', '--midi', out('new.mid'), '--musicxml', files[1]])).toThrow(
      'is there already; --force overwrites it',
    );
    expect(existsSync(out('new.mid'))).toBe(false);
    expect(phrases([...args, '--force'])).toContain('flam.musicxml');
    expect(() => phrases(['--musicxml', out('none.xml')])).toThrow('--musicxml wants the name of a phrase');
  });
});

describe('phrases --midi', () => {
  it('writes each as a MIDI file that reads back', () => {
    phrases(['Single paradiddle, rotations', '--midi', out('rotations.mid'), '--bpm', '90']);
    const contents = readMidi(readFileSync(out('rotations.mid')));
    const notes = contents.tracks.flatMap((track) => track.notes);
    // Four bars of sixteen, eight times or once: a whole number of bars.
    expect(notes.length % 64).toBe(0);
    expect(notes.length).toBeGreaterThan(0);
    expect(() => phrases(['--midi', out('none.mid')])).toThrow('--midi wants the name of a phrase');
  });
});
