import { readFileSync } from 'node:fs';
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import index from '../../recorded-sessions/index.json';
import { phraseNamed } from '../../src/exercises/phrase';
import { gradeTake } from '../../src/take/grade-take';
import type { Fault } from '../../src/model/faults';
import { modelTake } from '../../src/model/model-player';
import { remedyFor } from '../../src/state/selectors/review';
import { writeTake } from '../../src/sessions/take';
import type { Take } from '../../src/sessions/types';
import { openStage, type Stage } from './page';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage(4306);
});
afterAll(() => stage.close());

const leak: Fault = { kind: 'leak-before', hand: 'L', db: 6, variation: 'accent on 4' };
const walk = phraseNamed('Single paradiddle, accent walk');

function played(id: string, phrase = walk, bpm = 84, faults: readonly Fault[] = [leak]): Take {
  return modelTake({ phrase, bpm, seed: 21, cycles: 8, id, timingSdMs: 4, levelSdDb: 0.6, faults }).take;
}

/** As a player's own, of a day. */
const own = (take: Take, day: string): Take => ({
  ...take,
  source: 'played',
  recordedAt: `2026-11-${day}T10:00:00.000Z`,
});

/** What the strong button says: the steady take has no fault, the echoing trigger's is the rig's. */
const buttonOf = (name: string): RegExp => {
  if (name === 'steady') return /^Play it again$/;
  return name === 'echoing-trigger' ? /^Teach false notes$/ : /^Play the remedy: /;
};

/** Drops a take file on the page, as a player brings one. */
async function drop(page: Page, take: Take): Promise<void> {
  await page.waitForSelector('evenhand-app');
  await page.evaluate((text) => {
    const files = [new File([text], 'one.take.json', { type: 'application/json' })];
    document
      .querySelector('evenhand-app')
      ?.dispatchEvent(
        new CustomEvent('action', { detail: { kind: 'add files', files }, bubbles: true, composed: true }),
      );
  }, writeTake(take));
}

/** Opens one of the model player's takes, which lie behind a fold. */
async function openBundled(page: Page, name: string | RegExp): Promise<void> {
  await page.getByRole('link', { name: 'Takes', exact: true }).click();
  await page.getByText(/^Bundled takes, by the model player: /).click();
  await page.getByRole('button', { name, exact: true }).click();
}

const heading = (page: Page) => page.getByRole('heading', { level: 1 });

async function saved(page: Page, name: string): Promise<{ name: string; bytes: Buffer }> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name }).click(),
  ]);
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
}

// The truth is the model player's: 6 dB planted before the left hand's accent, in accent on 4.
describe('Review', () => {
  it('loads the remedy in Play, and shows the same measure before and after it', async () => {
    const page = await stage.open();
    const before = played('before');
    const remedy = remedyFor({ take: before, report: gradeTake(before) });
    if (remedy === undefined) throw new Error('no remedy');
    await drop(page, before);
    await expect.poll(() => heading(page).innerText()).toContain('Accent on 4 is the weak bar');
    await page.getByRole('button', { name: /^Play the remedy: accent on 4, alone/ }).click();
    await page.waitForSelector('evenhand-play-screen');
    await page.getByText(`accent on 4, alone · ${remedy.bpm} bpm`).waitFor();
    await drop(page, played('after', remedy.phrase, remedy.bpm, []));
    await page.getByText(/Leak before: [56]\.\d dB before, −?0\.\d dB now\./).waitFor();
    await page.getByRole('button', { name: /^Once more, to be sure/ }).waitFor();
    await page.context().close();
  });

  it('asks for the weakest bar first where that is switched on, by key, and keeps the count', async () => {
    const page = await stage.open();
    await drop(page, played('one'));
    await page.getByRole('checkbox', { name: /^Guess first/ }).check();
    await drop(page, played('two'));
    await page.getByRole('heading', { name: 'Which bar was weakest?' }).waitFor();
    await page.keyboard.press('4');
    await page.getByText('You heard it. Heard it 1 of 1.').waitFor();
    await drop(page, played('three'));
    await page.getByRole('heading', { name: 'Which bar was weakest?' }).waitFor();
    await page.keyboard.press('Escape');
    await expect.poll(() => heading(page).innerText()).toContain('Accent on 4');
    await page.reload();
    await drop(page, played('four'));
    await page.getByRole('heading', { name: 'Which bar was weakest?' }).waitFor();
    await page.keyboard.press('1');
    await page.getByText('Heard it 1 of 2.').waitFor();
    await page.context().close();
  });

  it('opens the strokes behind a number, sounds a bar of them, and saves them', async () => {
    const page = await stage.open();
    await drop(page, played('one'));
    await page.getByRole('button', { name: /^L [56]\.\d$/ }).click();
    await page.getByRole('heading', { name: /^Leak before, accent on 4, left hand/ }).waitFor();
    await page.getByRole('button', { name: 'Hear bar 4' }).first().click();
    await page.getByRole('button', { name: 'Stop the sound' }).waitFor();
    const { name, bytes } = await saved(page, 'Save them (CSV)');
    expect(name).toBe('strokes.csv');
    const rows = bytes.toString('utf8').trim().split('\r\n');
    expect(rows.filter((row) => row.includes('before its accent'))).toHaveLength(16);
    await page.context().close();
  });

  it('saves a picture as PNG and as CSV', async () => {
    const page = await stage.open();
    await drop(page, played('one'));
    await page.getByRole('button', { name: 'Levels stroke by stroke' }).click();
    await page
      .getByText(/^Stroke (7|15) \(L\)/)
      .first()
      .waitFor();
    const csv = await saved(page, 'Save its numbers (CSV)');
    expect(csv.bytes.toString('utf8')).toMatch(/^row,hand,middle dB,/);
    const png = await saved(page, 'Save the picture (PNG)');
    // The signature of a PNG: RFC 2083, section 3.1.
    expect([...png.bytes.subarray(0, 8)]).toEqual([137, 80, 78, 71, 13, 10, 26, 10]);
    await page.context().close();
  });

  // the done-when of Review: what was planted in each bundled take is in its notes; these are its golden sentences
  it('opens every bundled take with its fault first and a remedy for it; the steady one with none', async () => {
    const page = await stage.open({ path: '#review' });
    for (const { words, title, sentence, name } of index) {
      await openBundled(page, `${words}: ${title}`);
      await expect.poll(() => heading(page).innerText()).toBe(sentence);
      const button = await page.locator('.press button.strong').innerText();
      expect(button, name).toMatch(buttonOf(name));
    }
    await page.context().close();
  });

  it('keeps to a phone’s width and to the paper, where its phrase, tempo and day stand on top', async () => {
    const page = await stage.open({ path: '#review' });
    await openBundled(page, /^Right hand 3 dB louder/);
    await page.getByLabel('Set beside').selectOption('steady-model');
    await page.getByText(/^From the model player’s, 84 bpm to this take/).waitFor();
    const table = page.locator('table.variations');
    const right = (): Promise<number> =>
      page
        .locator('table.variations, canvas')
        .evaluateAll((drawn) => Math.max(...drawn.map((one) => one.getBoundingClientRect().right)));
    await page.setViewportSize({ width: 400, height: 900 });
    await expect.poll(() => page.evaluate(() => document.documentElement.scrollWidth)).toBe(400);
    // A4 (ISO 216: 210 mm) less the browser's own margins of 1 cm is 718 px at 96 px an inch; Letter is wider.
    await page.setViewportSize({ width: 718, height: 1000 });
    await page.emulateMedia({ media: 'print' });
    await expect.poll(right).toBeLessThanOrEqual(718);
    await page.getByText(/^Single paradiddle, rotations · 84 bpm · ten cycles · /).waitFor();
    await table.getByRole('columnheader', { name: 'louder accents dB' }).waitFor();
    for (const name of [/^Play the remedy/, 'Clean bars by tempo', 'Save the picture (PNG)'])
      expect(await page.getByRole('button', { name }).count()).toBe(0);
    await page.context().close();
  });

  it('says what gives a rotation away, and lets bars be told apart by key', async () => {
    const page = await stage.open();
    await drop(page, played('rotations', phraseNamed('Single paradiddle, rotations'), 84, []));
    await page
      .getByText(/gives? (a variation|.* )away/)
      .first()
      .waitFor();
    await page.getByRole('button', { name: 'Listen blind' }).click();
    await page.getByText('Bar 1 of 20: which is it?').waitFor();
    await page.keyboard.press('1');
    await page.getByText(/^[01] of 1 heard right/).waitFor();
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Listen blind' }).waitFor();
    await page.context().close();
  });

  it('sets a take beside the one before it and beside the model player’s, in words, as bands and by ear', async () => {
    const page = await stage.open();
    await drop(page, own(played('before'), '20'));
    await drop(page, own(played('after', walk, 84, []), '24'));
    const beside = page.locator('evenhand-beside');
    await beside.getByLabel('Set beside').selectOption('before');
    await beside.getByText(/^Accent on 4: leak before from L [56]\.\d dB to/).waitFor();
    await beside.locator('summary', { hasText: /Place by place: \d+ outside the noise/ }).click();
    await beside.getByRole('row', { name: /accent on 4 7, L [56]\.\d dB softer/ }).waitFor();
    await beside
      .getByText(/^The seventh stroke is [56]\.\d dB softer than in the earlier take/)
      .first()
      .waitFor();
    await beside.getByLabel(/Its levels as bands/).check();
    await page
      .getByText(/the other take’s band/)
      .first()
      .waitFor();

    // The model player is asked to play this very phrase.
    await beside.getByLabel('Set beside').selectOption('steady-model');
    await beside.getByText(/From the model player’s, 84 bpm to this take/).waitFor();

    await beside.getByLabel('Set beside').selectOption('');
    await beside.getByText(/From the model/).waitFor({ state: 'detached' });

    // The model player's steady take, bundled: differences of chance alone, and by ear.
    await beside.getByLabel('Set beside').selectOption('take:steady');
    await beside.getByText(/From the model player’s, 84 bpm to this take/).waitFor();
    await beside.getByRole('button', { name: 'Tell it from the model take by ear' }).click();
    await page.getByText('Bar 1 of 10: which take is it?').waitFor();
    await page.keyboard.press('2');
    await page.getByText(/^[01] of 1 heard right/).waitFor();
    await page.keyboard.press('Escape');
    await beside.getByLabel('Set beside').selectOption('');
    await beside.getByText(/From the model/).waitFor({ state: 'detached' });
    await page.context().close();
  });

  it('tells the ceiling from all takes of the phrase on the rig, and shows clean bars by tempo', async () => {
    const page = await stage.open();
    await drop(page, own(played('slow', walk, 72, []), '20'));
    await drop(page, own(played('quick', walk, 96, []), '21'));
    await page.getByText(/at least 96: nothing faster was played/).waitFor();
    await page.getByText('From 2 takes on this rig.').waitFor();
    await page.getByRole('button', { name: 'Clean bars by tempo' }).click();
    await page.getByText(/^At least 96: nothing faster was played\./).waitFor();
    await page.context().close();
  });
});
