import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readTake, writeTake } from '../../src/sessions/take';
import { drop } from './drop';
import { monthOfTakes } from './month';
import { openStage, setUpOnePad, strike, type Stage } from './page';

// Chromium itself has no room, deletes the site's data, gives the database to a newer page: through its own protocol
// (Storage.overrideQuotaForOrigin, Storage.clearDataForOrigin), and by the IndexedDB standard.

let stage: Stage;
beforeAll(async () => {
  stage = await openStage(4329);
});
afterAll(() => stage.close());

const PAD = 'Virtual pad';
const STRUCK = 24;
const folder = mkdtempSync(join(tmpdir(), 'evenhand-unkept-'));
const notKept = (page: Page) => page.getByText('Not kept', { exact: false }).first();

/** A take of some strokes is played; `during` is done in its middle. */
async function played(page: Page, during: () => Promise<unknown>): Promise<void> {
  await page.getByRole('button', { name: 'Play this' }).click();
  await setUpOnePad(page);
  await page.getByRole('button', { name: 'Start' }).click();
  await page.waitForTimeout(3500);
  for (let index = 0; index < STRUCK; index += 1) {
    if (index === STRUCK / 2) await during();
    await strike(page, PAD, 60 + index);
    await page.waitForTimeout(100);
  }
}

const stop = (page: Page) => page.getByRole('button', { name: 'Stop', exact: true }).click();
const go = (page: Page, screen: string) => page.getByRole('link', { name: screen, exact: true }).click();
const origin = (page: Page): string => new URL(page.url()).origin;

/** How long Chromium goes by the room it found last; then it looks again. */
const LOOKS_AGAIN_MS = 31_000;
/** Writes fail as they do without room, while the page's `isFull` says so. */
const FILLABLE = `window.isFull = false;
  const put = IDBObjectStore.prototype.put;
  IDBObjectStore.prototype.put = function (...args) {
    if (window.isFull) throw new DOMException('no room', 'QuotaExceededError');
    return put.apply(this, args);
  };`;
const setFull = (page: Page, isFull: boolean): Promise<unknown> => page.evaluate(`window.isFull = ${isFull}`);

/** Whether the browser asks before the page is left; it stays. */
async function asksBeforeLeaving(page: Page): Promise<boolean> {
  let asked = false;
  page.once('dialog', (dialog) => {
    asked = dialog.type() === 'beforeunload';
    void dialog.dismiss();
  });
  await page.close({ runBeforeUnload: true });
  await page.waitForTimeout(500);
  return asked;
}

describe('a take for which there is no room', () => {
  it('says so on every screen, is not left without being asked, and is kept once there is room', async () => {
    const page = await stage.open({ before: FILLABLE });
    await played(page, () => setFull(page, true));
    await page.getByText('This take is not being kept').waitFor();
    await stop(page);
    await page.locator('evenhand-review-screen article').waitFor();
    await page.getByText(/has no room left/).waitFor();
    for (const screen of ['Rig', 'Today', 'Play', 'Library', 'Takes', 'Review']) {
      await go(page, screen);
      await notKept(page).waitFor();
    }
    expect(await asksBeforeLeaving(page)).toBe(true);

    // There is room again: it is kept by itself.
    await setFull(page, false);
    await page.getByText(/^Kept now: /).waitFor({ timeout: 20_000 });
    expect(await notKept(page).count()).toBe(0);
    await go(page, 'Takes');
    await page
      .locator('table.own')
      .getByRole('button', { name: /^Open .*accent walk/ })
      .first()
      .waitFor();
    await page.context().close();
  });

  it('is downloaded whole from the message itself, and then the page can be left', async () => {
    const page = await stage.open({ before: FILLABLE });
    await played(page, () => setFull(page, true));
    await stop(page);
    await page.locator('evenhand-review-screen article').waitFor();
    await go(page, 'Rig');
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Download it' }).click(),
    ]);
    const file = join(folder, 'a.take.json');
    await download.saveAs(file);
    expect(readTake(readFileSync(file, 'utf8')).hits).toHaveLength(STRUCK);
    await expect.poll(() => notKept(page).count()).toBe(0);
    await page.context().close();
  });

  it('that is dropped as a file is reviewed from memory', async () => {
    const page = await stage.open({ path: '#takes' });
    await page.getByText('None is kept in this browser yet.').waitFor();
    const cdp = await page.context().newCDPSession(page);
    await cdp.send('Storage.overrideQuotaForOrigin', { origin: origin(page), quotaSize: 1 });
    await page.waitForTimeout(LOOKS_AGAIN_MS);
    const [take] = monthOfTakes();
    await drop(page, [{ name: 'a.take.json', text: writeTake(take) }]);
    await page.locator('evenhand-review-screen article').waitFor();
    await page.getByText(/has no room left.*Your file still has it/).waitFor();
    await page.context().close();
  });
});

describe('a library that is deleted in mid-take', () => {
  it('is said so, and the take is kept whole in a new one, under whose turn it is', async () => {
    const page = await stage.open();
    await played(page, async () => {
      const cdp = await page.context().newCDPSession(page);
      await cdp.send('Storage.clearDataForOrigin', { origin: origin(page), storageTypes: 'indexeddb' });
    });
    await stop(page);
    await page.locator('evenhand-review-screen article').waitFor();
    await page.reload();
    await go(page, 'Takes');
    await page
      .locator('table.own')
      .getByRole('button', { name: /^Open .*accent walk/ })
      .first()
      .click();
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Download the take' }).click(),
    ]);
    const file = join(folder, 'b.take.json');
    await download.saveAs(file);
    expect(readTake(readFileSync(file, 'utf8')).hits).toHaveLength(STRUCK);
    await page.context().close();
  });
});

describe('a database that a newer page takes over in mid-take', () => {
  it('is told as that, and the take can be had as a file', async () => {
    const page = await stage.open();
    await played(page, () =>
      page.evaluate(
        () =>
          new Promise<void>((done, fail) => {
            const opening = indexedDB.open('evenhand', 99);
            opening.onerror = () => fail(new Error('not opened'));
            opening.onsuccess = () => {
              opening.result.close();
              done();
            };
          }),
      ),
    );
    await page.getByText(/was taken over by a newer page of this app/).waitFor();
    await stop(page);
    await page.locator('evenhand-review-screen article').waitFor();
    await page.getByRole('button', { name: 'Download it' }).waitFor();
    expect(await asksBeforeLeaving(page)).toBe(true);
    await page.context().close();
  });
});
