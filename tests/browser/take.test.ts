import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Report } from '../../src/grading/types';
import { phraseNamed } from '../../src/exercises/phrase';
import { gradeTake } from '../../src/take/grade-take';
import { modelTake } from '../../src/model/model-player';
import { readTake } from '../../src/sessions/take';
import type { Take } from '../../src/sessions/types';
import { openStage, setUpOnePad, strike, type Stage } from './page';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage(4301);
});
afterAll(() => stage.close());

const PAD = 'Virtual pad';
const folder = mkdtempSync(join(tmpdir(), 'evenhand-'));

/** What the model player would strike, by time from the downbeat. */
function strikesOf(bpm: number, cycles: number): { afterMs: number; velocity: number }[] {
  const { take } = modelTake({
    phrase: phraseNamed('Single paradiddle, accent walk'),
    bpm,
    seed: 31,
    cycles,
    faults: [{ kind: 'leak-before', hand: 'L', db: 6, variation: 'accent on 4' }],
  });
  return take.hits.map((hit) => ({ afterMs: hit.atMs - (take.downbeatMs ?? 0), velocity: hit.velocity }));
}

/** Plays on the virtual pad in real time, to the downbeat of the running take; unplugs and replugs on the way. */
async function play(
  page: Page,
  strikes: readonly { afterMs: number; velocity: number }[],
  unplugAfter: number,
) {
  await page.evaluate(
    async ([pad, all, leaveAt]) => {
      const app = document.querySelector('evenhand-play-screen') as unknown as { running: boolean };
      while (!app.running) await new Promise((done) => setTimeout(done, 5));
      // The click's own notes say when the downbeat is: the fifth is bar 1.
      const click = window.devices['Module'];
      while (click.sent.length < 1) await new Promise((done) => setTimeout(done, 5));
      const first = click.sent[0].timestamp;
      const beatMs = 60_000 / 200;
      const downbeat = first + 4 * beatMs;
      for (const [index, one] of all.entries()) {
        const at = downbeat + one.afterMs;
        while (performance.now() < at) await new Promise((done) => setTimeout(done, 1));
        if (index === leaveAt) {
          window.devices[pad].unplug();
          await new Promise((done) => setTimeout(done, 30));
          window.devices[pad].plug();
          await new Promise((done) => setTimeout(done, 10));
        }
        // Beside the strokes a kit sends much that must pass unheeded.
        window.devices[pad].send([0xfe]);
        window.devices[pad].send([0xb9, 4, index % 128]);
        window.devices[pad].send([0x99, 38, one.velocity], at);
        window.devices[pad].send([0x89, 38, 64], at + 1);
        window.devices[pad].send([0x99, 38, 0], at + 2);
      }
    },
    [PAD, strikes, unplugAfter] as const,
  );
}

async function downloaded(page: Page): Promise<{ file: string; take: Take }> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Download the take' }).click(),
  ]);
  const file = join(folder, download.suggestedFilename());
  await download.saveAs(file);
  return { file, take: readTake(readFileSync(file, 'utf8')) };
}

const reportOnPage = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const screen = document.querySelector('evenhand-review-screen') as unknown as { report: Report };
    return JSON.stringify(screen.report);
  });

describe('a take through the real webmidi library on a virtual port', () => {
  it('is unplugged, replugged, finished, and graded to the very report the command line gives', async () => {
    const page = await stage.open({ outputs: ['Module'], inputs: [PAD] });
    await page.getByRole('spinbutton', { name: 'Tempo' }).fill('200');
    await page.getByRole('spinbutton', { name: 'Tempo' }).press('Enter');
    await page.getByRole('spinbutton', { name: 'Cycles' }).fill('2');
    await page.getByRole('spinbutton', { name: 'Cycles' }).press('Enter');
    await page.getByRole('button', { name: 'Play this' }).click();
    await setUpOnePad(page);
    await page.getByLabel('Click').selectOption({ label: 'A note on Module' });
    await page.getByRole('button', { name: 'Start' }).click();
    const strikes = strikesOf(200, 2);
    await play(page, strikes, 40);
    await page.waitForSelector('evenhand-review-screen');
    await page.getByRole('heading', { level: 1 }).waitFor();

    const onPage = await reportOnPage(page);
    const { file, take } = await downloaded(page);
    expect(take.source).toBe('played');
    expect(take.hits).toHaveLength(strikes.length);
    expect(take.hits.map((hit) => hit.velocity)).toEqual(strikes.map((one) => one.velocity));
    expect((JSON.parse(onPage) as Report).counts.matched).toBeGreaterThanOrEqual(strikes.length - 1);

    const printed = execFileSync('node', ['dist-cli/evenhand.js', 'grade', file, '--json'], {
      encoding: 'utf8',
    });
    // Compared as text, byte for byte; a short message where they differ, not two reports.
    expect(onPage === JSON.stringify(JSON.parse(printed))).toBe(true);
    expect(onPage === JSON.stringify(gradeTake(take))).toBe(true);
    await page.context().close();
  });

  it('sends a note a click to the kit, each ahead of its time, four before the downbeat', async () => {
    const page = await stage.open({ outputs: ['Module'], inputs: [PAD] });
    await page.getByRole('button', { name: 'Play this' }).click();
    await setUpOnePad(page);
    await page.getByLabel('Click').selectOption({ label: 'A note on Module' });
    await page.getByRole('button', { name: 'Start' }).click();
    await page.waitForTimeout(4500);
    const sent = await page.evaluate(() => {
      const downbeat = (document.querySelector('evenhand-app') as Element).isConnected;
      return {
        downbeat,
        sent: window.devices['Module'].sent.map(({ bytes, timestamp }) => ({ bytes, timestamp })),
      };
    });
    const ons = sent.sent.filter(({ bytes }) => bytes[2] > 0 && (bytes[0] & 0xf0) === 0x90);
    expect(ons.length).toBeGreaterThanOrEqual(5);
    const beatMs = 60_000 / 84;
    for (let index = 1; index < ons.length; index += 1) {
      expect(ons[index].timestamp - ons[index - 1].timestamp).toBeCloseTo(beatMs, 3);
    }
    // The first of each bar is louder.
    expect(ons[0].bytes[2]).toBeGreaterThan(ons[1].bytes[2]);
    expect(ons[4].bytes[2]).toBe(ons[0].bytes[2]);
    await page.context().close();
  });
});

describe('a page that dies in mid-take', () => {
  it('loses at most the last second of it', async () => {
    const page = await stage.open();
    await page.getByRole('button', { name: 'Play this' }).click();
    await setUpOnePad(page);
    await page.getByRole('button', { name: 'Start' }).click();
    // One bar of count-in at 84 bpm and the lead, then a stroke every 100 ms.
    await page.waitForTimeout(3500);
    const struck = 30;
    for (let index = 0; index < struck; index += 1) {
      await strike(page, PAD, 60 + index);
      await page.waitForTimeout(100);
    }
    const context = page.context();
    await page.close({ runBeforeUnload: false });

    const again = await stage.open({ context });
    await again.getByRole('link', { name: 'Takes' }).click();
    // It stands there as soon as the browser has let the dead page go.
    const own = again.locator('evenhand-takes-screen table.own');
    await own.getByRole('button', { name: /^Open Single paradiddle, accent walk/ }).click();
    await again.getByRole('button', { name: 'Download the take' }).waitFor();
    const { take } = await downloaded(again);
    expect(take.hits.length).toBeGreaterThanOrEqual(struck - 10);
    expect(take.notes).toContain('The page closed during this take');
    await context.close();
  });
});
