import AxeBuilder from '@axe-core/playwright';
import { readFileSync } from 'node:fs';
import type { Download, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readMidi } from '../../src/midi/standard-midi-file';
import { readWeekSheet } from '../../src/sessions/week-sheet';
import { openStage, type Stage } from './page';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage(4317);
});
afterAll(() => stage.close());

async function downloaded(page: Page, button: string): Promise<{ name: string; bytes: Buffer }> {
  const [download] = await Promise.all([
    page.waitForEvent('download') as Promise<Download>,
    page.getByRole('button', { name: button }).click(),
  ]);
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
}

describe('a phrase goes out of the Phrase screen', () => {
  it('as a MIDI file that reads back, and as MusicXML', async () => {
    const page = await stage.open({ path: '#phrase' });
    await page.waitForSelector('evenhand-phrase-screen');
    const midi = await downloaded(page, 'MIDI file');
    expect(midi.name).toBe('phrase-Single-paradiddle-accent-walk.mid');
    // Four bars of sixteen strokes, eight times round.
    const notes = readMidi(midi.bytes).tracks.flatMap((track) => track.notes);
    expect(notes.length % 64).toBe(0);
    const xml = await downloaded(page, 'MusicXML');
    expect(xml.name).toBe('phrase-Single-paradiddle-accent-walk.musicxml');
    expect(xml.bytes.toString()).toContain('<score-partwise version="4.0">');
    await page.context().close();
  });
});

describe('a lesson note is written from Review', () => {
  it('with words, kept words and a target; it goes out as a page, Markdown and a week sheet, no name in a file’s name', async () => {
    const page = await stage.open({ path: '#review' });
    await page.waitForSelector('evenhand-review-screen');
    await page.evaluate(() => {
      document.querySelector('evenhand-review-screen')?.dispatchEvent(
        new CustomEvent('action', {
          detail: { kind: 'open take', id: 'take:left-up-stroke-leaks' },
          bubbles: true,
          composed: true,
        }),
      );
    });
    await page.getByRole('button', { name: 'Write a note' }).click();
    await page.getByLabel(/^Student/).fill('Kim <b>');
    await page.getByLabel('Your words').fill('Low sticks.');
    await page.getByRole('button', { name: 'Keep these words for other notes' }).click();
    await page
      .getByRole('list', { name: 'Your kept words' })
      .getByText('Low sticks.', { exact: true })
      .waitFor();
    const paper = page.frameLocator('iframe');
    await paper.getByText('Lesson note for Kim <b>').waitFor();
    await paper.getByText('leak before in accent on 4 at most 2 dB').waitFor();
    await page.getByLabel('Next week’s target').fill('90 bpm, easy');
    await paper.getByText('90 bpm, easy').waitFor();

    const html = await downloaded(page, 'Download as a page');
    expect(html.name).toBe('note-KB-2026-03-02.html');
    expect(html.bytes.toString()).toContain('Kim &lt;b&gt;');
    const markdown = await downloaded(page, 'Download as Markdown');
    expect(markdown.bytes.toString()).toContain('> Low sticks.');
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0].html}`)).toEqual([]);
    await page.screenshot({ path: '.pictures/note-1280.png', fullPage: true });
    await page.setViewportSize({ width: 400, height: 800 });
    await page.screenshot({ path: '.pictures/note-400.png', fullPage: true });
    await page.getByRole('button', { name: 'Back to Review' }).click();
    await page.getByRole('button', { name: 'Go on with the note' }).click();
    await page.getByLabel(/^Student/).fill('Kim <b>');
    await page.getByLabel('Your words').fill('Low sticks.');
    await page.getByRole('button', { name: 'Make a week sheet of it' }).click();
    await page.getByRole('heading', { name: 'Week sheet' }).waitFor();
    await paper.getByText('Week sheet for Kim <b>').waitFor();
    const file = await downloaded(page, 'Download the file for the student');
    expect(file.name).toMatch(/^sheet-KB-\d{4}-\d{2}-\d{2}\.week\.json$/);
    const week = readWeekSheet(file.bytes.toString());
    expect(week).toMatchObject({ student: 'Kim <b>', bpm: 84, words: 'Low sticks.\n90 bpm, easy' });
    const sheet = await new AxeBuilder({ page }).analyze();
    expect(sheet.violations.map(({ id, nodes }) => `${id}: ${nodes[0].html}`)).toEqual([]);
    await page.context().close();
  });
});
