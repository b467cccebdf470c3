import { readFileSync } from 'node:fs';
import type { Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import type { Fault } from '../../src/model/faults';
import { modelTake } from '../../src/model/model-player';
import { readWeekSheet } from '../../src/sessions/week-sheet';
import { writeTake } from '../../src/sessions/take';
import type { Take } from '../../src/sessions/types';
import { drop } from './drop';
import { openStage, setUpOnePad, type Stage } from './page';

// A teacher's term with six students, one who gets worse, one who stops coming, one left-hander, two of one name. Their
// takes are the model player's; the teacher's own is struck on a virtual pad.

let stage: Stage;
beforeAll(async () => {
  stage = await openStage(4342);
});
afterAll(() => stage.close());

const WEEKS = 6;
const walk = phraseNamed('Single paradiddle, accent walk');
const leftWalk = phraseNamed('Single paradiddle, accent walk, left lead');
const day = (week: number): string => new Date(Date.UTC(2026, 0, 12 + 7 * week, 16)).toISOString();

interface Lesson {
  readonly player: string;
  readonly playerId?: string;
  readonly week: number;
  readonly faults?: readonly Fault[];
  readonly more?: Partial<Take>;
}

/** What a student played in a week's lesson. */
function lesson({ player, playerId, week, faults = [], more = {} }: Lesson) {
  const phrase = player === 'Dee' ? leftWalk : walk;
  const { take } = modelTake({ phrase, bpm: 84 + week, seed: 7 + week, cycles: 4, timingSdMs: 4, faults });
  const id = `${playerId ?? player} ${week}`;
  const written: Take = {
    ...take,
    id,
    player,
    source: 'played',
    recordedAt: day(week),
    ...(playerId === undefined ? {} : { playerId }),
    ...more,
  };
  return { name: `${id}.take.json`, text: writeTake(written) };
}

const weeks = (count: number): readonly number[] => Array.from({ length: count }, (_, week) => week);
/** A leak that grows from week to week. */
const worse = (week: number): readonly Fault[] =>
  week === 0 ? [] : [{ kind: 'leak-before', hand: 'L', db: 2 + 1.5 * week, variation: 'accent on 4' }];

const link = (page: Page, name: string) => page.getByRole('link', { name, exact: true }).click();
const turnTo = (page: Page, label: string) =>
  page.getByLabel('Player', { exact: true }).selectOption({ label });
const players = (page: Page) => page.getByLabel('Player', { exact: true }).locator('option').allInnerTexts();
const closeList = (page: Page) => page.getByRole('button', { name: 'Close the list' }).click();
const own = (page: Page) => page.locator('evenhand-takes-screen table.own tbody tr');

/** Three bars of the phrase at its tempo, each stroke stamped with its own time. */
async function playedBy(page: Page): Promise<void> {
  const gapMs = 60_000 / 84 / 4;
  const strokes = 48;
  await page.evaluate(
    ([gap, count]) => {
      const fromMs = performance.now();
      for (let stroke = 0; stroke < count; stroke += 1) {
        const atMs = fromMs + stroke * gap;
        const velocity = stroke % 4 === 0 ? 110 : 45;
        setTimeout(() => window.devices['Virtual pad'].send([0x99, 38, velocity], atMs), stroke * gap);
      }
    },
    [gapMs, strokes] as const,
  );
  await page.waitForTimeout(strokes * gapMs + 500);
}

async function downloaded(page: Page, press: () => Promise<void>): Promise<{ name: string; text: string }> {
  const [download] = await Promise.all([page.waitForEvent('download'), press()]);
  return { name: download.suggestedFilename(), text: readFileSync(await download.path(), 'utf8') };
}

it('a term of six students: nothing of one lands on another’s, and all of it comes to a second browser', async () => {
  const page = await stage.open({ path: '#library' });
  await page.getByRole('textbox', { name: 'Name', exact: true }).fill('Ada');
  await page.getByRole('textbox', { name: 'Name', exact: true }).press('Tab');
  for (const name of ['Bo', 'Cy', 'Dee', 'Kim Person', 'Kim Person']) {
    await page.getByLabel('Another player').fill(name);
    await page.getByRole('button', { name: 'Add', exact: true }).click();
  }
  const everybody = ['Ada', 'Bo', 'Cy', 'Dee', 'Kim Person (KP)', 'Kim Person (KP2)'];
  await expect.poll(() => players(page)).toEqual(everybody);
  expect(await page.getByLabel('Player', { exact: true }).locator('option:checked').innerText()).toBe('Ada');
  await page.locator('evenhand-player-row').nth(3).getByLabel('Lead hand').selectOption('L');

  // Lessons: Cy stops coming after two weeks, Bo gets worse, of the two of one name nobody can know yet which is which.
  await drop(page, [
    ...weeks(WEEKS).map((week) => lesson({ player: 'Ada', week })),
    ...weeks(WEEKS).map((week) => lesson({ player: 'Bo', week, faults: worse(week) })),
    ...weeks(2).map((week) => lesson({ player: 'Cy', week })),
    ...weeks(WEEKS).map((week) => lesson({ player: 'Dee', week })),
    ...weeks(4).map((week) => lesson({ player: 'Kim Person', playerId: 'kim-of-tuesday', week })),
    ...weeks(3).map((week) => lesson({ player: 'Kim Person', playerId: 'kim-of-friday', week })),
  ]);
  await page.getByText('27 taken, 0 refused.').waitFor({ timeout: 60_000 });
  await page.getByLabel('Choose a player … 4 takes').selectOption({ label: 'Kim Person (KP)' });
  await page.getByText('Kim Person (KP): 4 takes').waitFor();
  await page.getByLabel('Choose a player … 3 takes').selectOption({ label: 'Kim Person (KP2)' });
  await page.getByText('Kim Person (KP2): 3 takes').waitFor();
  await closeList(page);

  await link(page, 'Takes');
  const counts = async (): Promise<readonly (readonly [string, number])[]> => {
    const all: (readonly [string, number])[] = [];
    for (const label of everybody) {
      await turnTo(page, label);
      await page.waitForTimeout(300);
      all.push([label, await own(page).count()]);
    }
    return all;
  };
  expect(await counts()).toEqual([
    ['Ada', 6],
    ['Bo', 6],
    ['Cy', 2],
    ['Dee', 6],
    ['Kim Person (KP)', 4],
    ['Kim Person (KP2)', 3],
  ]);
  await turnTo(page, 'Bo');
  await expect
    .poll(async () => (await own(page).allInnerTexts()).filter((row) => /leak/.test(row)).length)
    .toBeGreaterThan(2);
  await turnTo(page, 'Ada');
  await expect
    .poll(async () => (await own(page).allInnerTexts()).filter((row) => /leak/.test(row)).length)
    .toBe(0);

  // The left-hander meets what the app brings led by the left.
  await turnTo(page, 'Dee');
  await link(page, 'Phrase');
  await page.getByRole('heading', { level: 1, name: /left lead/ }).waitFor();

  // A week sheet goes out to the second of one name, and comes back while another has the turn.
  await turnTo(page, 'Kim Person (KP2)');
  await link(page, 'Library');
  await page.getByRole('button', { name: 'Write a week sheet' }).click();
  await page.getByLabel('Your words').fill('For the second Kim alone.');
  const given = await downloaded(page, () =>
    page.getByRole('button', { name: 'Download the file for the student' }).click(),
  );
  expect(given.name).toMatch(/^sheet-KP2-\d{4}-\d{2}-\d{2}\.week\.json$/);
  const sheet = readWeekSheet(given.text);
  await page.getByRole('button', { name: 'Keep it' }).click();
  await turnTo(page, 'Ada');
  await drop(page, [lesson({ player: 'Me', playerId: 'at-home', week: 7, more: { sheetId: sheet.id } })]);
  await page.getByText('Kim Person (KP2): 1 take, by its week sheet').waitFor();
  expect(await page.getByText('For the second Kim alone.').count()).toBe(0);
  await closeList(page);

  // The teacher shows it once: one press, one take, in nobody's history.
  await link(page, 'Play');
  await setUpOnePad(page);
  await page.getByRole('button', { name: 'I play this one' }).click();
  await page.getByText('The next take is the teacher’s').waitFor();
  await page.getByRole('button', { name: 'Start' }).click();
  await page.getByText('The teacher’s take.').waitFor();
  await page.waitForTimeout(3500);
  await playedBy(page);
  await page.keyboard.press('Space');
  await page.locator('evenhand-review-screen article').waitFor();
  await link(page, 'Takes');
  await expect.poll(() => own(page).count()).toBe(6);
  await own(page)
    .first()
    .getByRole('button', { name: /^Open / })
    .click();
  await page.locator('evenhand-review-screen article').waitFor();
  const beside = page.getByLabel('Set beside').locator('option');
  await expect
    .poll(async () => (await beside.allInnerTexts()).filter((one) => one.includes('the teacher’s')).length)
    .toBe(1);
  await link(page, 'Play');
  expect(await page.getByText('The next take is the teacher’s').count()).toBe(0);

  // Cy, who stopped coming, goes into the archive with both takes.
  await link(page, 'Library');
  const cy = page.locator('evenhand-player-row').nth(2);
  await cy.locator('summary').click();
  await cy.getByRole('button', { name: 'Put Cy in the archive' }).click();
  await expect.poll(() => players(page)).toEqual(everybody.filter((name) => name !== 'Cy'));

  const backup = await downloaded(page, () =>
    page.getByRole('button', { name: 'Download a backup of everything' }).click(),
  );
  expect(backup.name).toMatch(/^backup-\d{4}-\d{2}-\d{2}\.library\.json$/);
  await page.context().close();

  const second = await stage.open({ path: '#library' });
  await drop(second, [backup]);
  await second.getByText(/a backup: .* new/).waitFor({ timeout: 60_000 });
  await closeList(second);
  await expect.poll(() => players(second)).toEqual(everybody.filter((name) => name !== 'Cy'));
  await second.getByText('Archive: 1 player').click();
  await second.getByRole('button', { name: 'Bring Cy back' }).click();
  await expect.poll(() => players(second)).toEqual(everybody);
  await link(second, 'Takes');
  for (const [label, takes] of [
    ['Ada', 6],
    ['Cy', 2],
    ['Kim Person (KP2)', 4],
  ] as const) {
    await turnTo(second, label);
    await expect.poll(() => own(second).count()).toBe(takes);
  }
  await second
    .locator('evenhand-takes-screen')
    .getByRole('combobox', { name: /^Of/ })
    .selectOption({ label: 'the teacher' });
  await expect.poll(() => own(second).count()).toBe(1);
  await link(second, 'Today');
  await second.getByText('For the second Kim alone.').first().waitFor();
  await second.context().close();
}, 240_000);
