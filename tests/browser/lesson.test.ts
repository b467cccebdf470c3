import { execFileSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import type { Report } from '../../src/grading/types';
import { modelTake } from '../../src/model/model-player';
import { writeTake } from '../../src/sessions/take';
import type { Take } from '../../src/sessions/types';
import { openStage, setUpOnePad, type Stage } from './page';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage(4309);
});
afterAll(() => stage.close());

const PAD = 'Virtual pad';
/**
 * A climb: about 3 % up after two takes that held (grading.md section 7). With EVENHAND_LESSON=whole eight cycles of four
 * bars each, ten minutes in all and a little more; else half the takes, with two cycles each.
 */
const isWhole = process.env['EVENHAND_LESSON'] === 'whole';
const TEMPOS = isWhole ? [88, 88, 91, 91, 94, 94, 97, 97] : [88, 88, 91, 91];
const CYCLES = isWhole ? 8 : 2;
const MINUTES = isWhole ? 10 : 1.2;
const folder = mkdtempSync(join(tmpdir(), 'evenhand-lesson-'));

interface Due {
  readonly afterMs: number;
  readonly velocity: number;
}

/** What the model player would strike in a take of the climb, by time from the downbeat. */
function strikesOf(step: number): Due[] {
  const bpm = TEMPOS[step];
  const { take } = modelTake({
    phrase: phraseNamed('Single paradiddle, accent walk'),
    bpm,
    seed: 100 + step,
    cycles: CYCLES,
  });
  return take.hits.map(({ atMs, velocity }) => ({ afterMs: atMs - (take.downbeatMs ?? 0), velocity }));
}

async function enter(page: Page, name: string, value: number): Promise<void> {
  const field = page.getByRole('spinbutton', { name, exact: true });
  await field.fill(String(value));
  await field.press('Enter');
}

/** Lays all strokes of a take on the page's clock, from the downbeat that the click's own first note tells. */
async function lay(page: Page, strikes: readonly Due[], bpm: number): Promise<void> {
  await page.evaluate(
    ([pad, all, beatMs, clicksBefore]) => {
      const first = window.devices['Module'].sent[clicksBefore].timestamp;
      const downbeatMs = first + 4 * beatMs;
      for (const { afterMs, velocity } of all) {
        const at = downbeatMs + afterMs;
        setTimeout(() => window.devices[pad].send([0x99, 38, velocity], at), at - performance.now());
      }
    },
    [PAD, strikes, 60_000 / bpm, clicksSent] as const,
  );
}
let clicksSent = 0;

const takesInStorage = (page: Page): Promise<Take[]> =>
  page.evaluate(
    () =>
      new Promise<Take[]>((done, fail) => {
        const opening = indexedDB.open('evenhand');
        opening.onerror = () => fail(new Error('no database'));
        opening.onsuccess = () => {
          const asked = opening.result.transaction('takes').objectStore('takes').getAll();
          asked.onsuccess = () => {
            opening.result.close();
            done(asked.result as Take[]);
          };
        };
      }),
  );

it(`a lesson of ${MINUTES} minutes on the page’s own clock, run fast: every raw hit is in storage, and reports are the command line’s`, async () => {
  const page = await stage.open({ outputs: ['Module'], inputs: [PAD], clock: true });
  await page.getByRole('link', { name: 'Phrase' }).click();
  await enter(page, 'Cycles', CYCLES);
  await enter(page, 'Tempo', TEMPOS[0]);
  await page.getByRole('button', { name: 'Play this' }).click();
  await setUpOnePad(page);
  await page.getByLabel('Click').selectOption({ label: 'A note on Module' });
  const far = await stage.open({ context: page.context(), path: '?far' });
  const fromMs = await page.evaluate(() => performance.now());
  const climb = page.locator('evenhand-climb');
  const clicks = () => page.evaluate(() => window.devices['Module'].sent.length);
  await page.getByRole('button', { name: 'Climb from 88 bpm' }).click();
  await climb.getByText('Take 1: 88 bpm. Start when you are ready.').waitFor();

  for (const [step, bpm] of TEMPOS.entries()) {
    clicksSent = await clicks();
    if (step === 0) await page.getByRole('button', { name: 'Start', exact: true }).click();
    // From then on each take begins by itself, after a breath.
    else
      for (let tries = 0; tries < 40 && (await clicks()) === clicksSent; tries += 1)
        await page.clock.runFor(250);
    await expect.poll(clicks).toBeGreaterThan(clicksSent);
    await lay(page, strikesOf(step), bpm);
    const takeMs = (4 + CYCLES * 16 + 1) * (60_000 / bpm) + 400;
    for (let doneMs = 0; doneMs < takeMs; doneMs += 2000) {
      await page.clock.runFor(Math.min(2000, takeMs - doneMs));
      if (step === 1 && doneMs === 8000) {
        await page.evaluate((pad) => {
          window.devices[pad].unplug();
          window.devices[pad].plug();
        }, PAD);
      }
      if (step === 2 && (doneMs === 6000 || doneMs === 10_000)) {
        await page.evaluate((hidden) => {
          Object.defineProperty(document, 'hidden', { value: hidden, configurable: true });
          document.dispatchEvent(new Event('visibilitychange'));
        }, doneMs === 6000);
      }
      if (step === 3 && doneMs === 8000) await far.getByRole('button', { name: 'Mark this bar' }).click();
    }
    await climb.getByText(new RegExp(`^Take ${step + 2}: \\d+ bpm`)).waitFor();
  }
  await climb
    .getByText(`Clean up to ${TEMPOS[TEMPOS.length - 1]} bpm, in ${TEMPOS.length} takes`)
    .first()
    .waitFor();
  await page.getByRole('button', { name: 'End the climb' }).click();

  // Each take as Review shows it.
  const reports = new Map<string, string>();
  for (const index of TEMPOS.keys()) {
    await page.getByRole('link', { name: 'Takes' }).click();
    await page
      .locator('evenhand-takes-screen table.own')
      .getByRole('button', { name: /^Open .*accent walk/ })
      .nth(index)
      .click();
    await expect
      .poll(async () => {
        const text = await page.evaluate(() => {
          const screen = document.querySelector('evenhand-review-screen') as unknown as {
            report: Report | null;
          };
          return JSON.stringify(screen.report);
        });
        const report = JSON.parse(text) as Report | null;
        if (report !== null) reports.set(report.takeId, text);
        return reports.size;
      })
      .toBe(index + 1);
  }

  const lastedMs = (await page.evaluate(() => performance.now())) - fromMs;
  expect(lastedMs).toBeGreaterThan(MINUTES * 60_000);
  const takes = (await takesInStorage(page)).sort((a, b) => (a.recordedAt < b.recordedAt ? -1 : 1));
  expect(takes.map(({ hits }) => hits.map(({ velocity }) => velocity))).toEqual(
    [...TEMPOS.keys()].map((step) => strikesOf(step).map(({ velocity }) => velocity)),
  );
  const happened = [[], ['port gone', 'port back'], ['page hidden', 'page shown'], ['mark']];
  expect(takes.slice(0, 4).map(({ events = [] }) => events.map(({ kind }) => kind))).toEqual(happened);
  for (const [index, take] of takes.entries()) {
    const file = join(folder, `${index}.take.json`);
    writeFileSync(file, writeTake(take));
    const printed = execFileSync('node', ['dist-cli/evenhand.js', 'grade', file, '--json'], {
      encoding: 'utf8',
    });
    expect(reports.get(take.id) === JSON.stringify(JSON.parse(printed))).toBe(true);
  }
  await page.context().close();
}, 300_000);
