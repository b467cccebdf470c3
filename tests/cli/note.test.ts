import { existsSync, mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { XmlDocument } from 'libxml2-wasm';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { note } from '../../src/cli/note';
import { gradeTake } from '../../src/take/grade-take';
import { noteHtml, noteMarkdown, type NotedTake } from '../../src/sessions/paper/lesson-note';
import { inMarkdown } from '../../src/sessions/paper/markup';
import { engraved } from '../../src/sessions/paper/engraving';
import { readTake } from '../../src/sessions/take';
import { weekSheetHtml } from '../../src/sessions/paper/week-page';
import { termReportHtml } from '../../src/sessions/paper/term-report';
import { bundledPhrases } from '../../src/exercises/phrase';

const LEAKS = 'recorded-sessions/left-up-stroke-leaks.take.json';
const folder = mkdtempSync(join(tmpdir(), 'evenhand-note-'));
const out = (name: string): string => join(folder, name);
const take = readTake(readFileSync(LEAKS, 'utf8'));
const noted: NotedTake = { take, report: gradeTake(take) };

describe('evenhand note', () => {
  it('says where there was no click', () => {
    const free = { ...take, click: 'none' as const, downbeatMs: null };
    const page = noteHtml({ student: '', date: '2026-03-02', words: '', target: '' }, [
      { take: free, report: gradeTake(free) },
    ]);
    expect(page).toContain('by the model player, not by a person, without a click, 8 cycles');
  });

  it('writes a page with student, date, sentence, words and target; what it is made of says who played', () => {
    expect(note([LEAKS, '--out', out('n.html'), '--student', 'K. P.', '--words', 'Low sticks.'])).toContain(
      'a note of 1 take',
    );
    const page = readFileSync(out('n.html'), 'utf8');
    for (const words of [
      'Lesson note for K. P.',
      '2026-03-02',
      noted.report.sentence,
      'Low sticks.',
      'by the model player, not by a person',
    ])
      expect(page).toContain(words);
    expect(page).toContain('leak before in accent on 4 at most 2 dB');
    expect(page).toMatch(/Ceiling tempo, in bpm: at most 84: not clean at anything tried, by accent on 4\./);
    // Self-contained: nothing is fetched, nothing runs.
    expect(page).not.toMatch(/<script|<link|src=|url\(|href=/i);
  });

  it('writes the same as Markdown, overwrites nothing without --force, and knows its endings', () => {
    const args = [LEAKS, '--out', out('n.md'), '--target', '90 bpm'];
    note(args);
    const text = readFileSync(out('n.md'), 'utf8');
    expect(text).toMatch(/^# Lesson note\n\n2026-03-02\n/);
    expect(text).toContain('- accent on 4: `rlrR lrlL rlrR lrlL`');
    expect(text).toContain('**Next week:** 90 bpm');
    expect(() => note(args)).toThrow('is there already; --force overwrites it');
    expect(() => note([LEAKS, '--out', out('n.pdf')])).toThrow('note wants --out OUT.html or OUT.md');
    expect(existsSync(out('n.pdf'))).toBe(false);
  });

  it('--term: a page for parents without dB', () => {
    note([LEAKS, '--out', out('t.html'), '--term', '--student', 'K. P.']);
    const page = readFileSync(out('t.html'), 'utf8');
    expect(page).toContain('This term: K. P.');
    expect(page.replace(/<style>[\s\S]*<\/style>/, '')).not.toMatch(/\bdB\b|velocity|margin/);
  });
});

const nasty = fc.oneof(
  fc.constantFrom(
    '<script>alert(1)</script>',
    '<img src=x onerror=alert(1)>',
    '"><b>',
    "'&amp;",
    '</style>',
    '| a | b |',
    '`*_[x](y)_*`',
    '=1+1',
  ),
  fc.string({ unit: 'binary', maxLength: 16 }),
);
/** Elements that a note is made of; anything else would be a name's own markup. */
const OURS =
  /^\/?(?:!doctype|html|head|meta|title|style|body|header|h1|h2|span|section|svg|g|text|line|ellipse|path|rect|circle|p|table|thead|tbody|tr|th|td|div|b)\b/;

describe('strings with markup in any name stay text (law)', () => {
  it('in the page, the term report and the week sheet', () => {
    fc.assert(
      fc.property(nasty, nasty, nasty, (name, words, variation) => {
        const bars = take.phrase.bars.map((bar) => ({ ...bar, variation: bar.variation + variation }));
        const named: NotedTake = {
          take: { ...take, phrase: { ...take.phrase, title: name, bars } },
          report: {
            ...noted.report,
            sentence: variation,
            variations: noted.report.variations.map((one) => ({ ...one, name: variation })),
          },
        };
        const pages = [
          noteHtml({ student: name, date: '2026-03-02', words, target: variation }, [named]),
          termReportHtml(
            { student: name, words },
            {
              rows: [{ title: variation, minutes: 1, steady: '60 bpm', change: name }],
              takes: 1,
              days: ['2026-01-01'],
            },
          ),
          weekSheetHtml({
            format: 'evenhand-week',
            version: 1,
            id: 'w',
            student: name,
            phrase: { ...take.phrase, title: variation, bars },
            bpm: 84,
            limits: 'working',
            targets: [{ kind: 'holds', variation }],
            words,
            due: '2026-03-09',
            changedAt: '2026-03-02T18:00:00.000Z',
          }),
        ];
        for (const page of pages) {
          for (const [, tag] of page.matchAll(/<([^\s>]+)/g)) expect(tag.toLowerCase()).toMatch(OURS);
          // What stands in quotes is an attribute's text: a quote in it would be escaped.
          expect(page.replaceAll(/"[^"]*"/g, '""')).not.toMatch(/<[^>]*\bon\w+\s*=/i);
          expect(page.match(/<style>/g)).toHaveLength(1);
        }
      }),
      { numRuns: 60, seed: 7 },
    );
  });

  it('in Markdown: no HTML, and a table keeps its columns', () => {
    fc.assert(
      fc.property(nasty, (name) => {
        expect(inMarkdown(name)).not.toMatch(/[<>\n]/);
        const text = noteMarkdown({ student: name, date: '2026-03-02', words: name, target: name }, [noted]);
        // A quote's own mark aside.
        expect(text.replaceAll(/^> /gm, '')).not.toMatch(/[<>]/);
      }),
      { numRuns: 200, seed: 8 },
    );
  });
});

describe('the notation of a note', () => {
  it.each(bundledPhrases.map(({ name, phrase }) => [name, phrase] as const))(
    '%s is sound SVG with a letter a stroke',
    (_, phrase) => {
      const { svg } = engraved(phrase);
      expect(() => XmlDocument.fromString(svg)).not.toThrow();
      expect(svg).not.toMatch(/NaN|undefined/);
    },
  );
});
