import { readFileSync } from 'node:fs';
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { libraryOf, writeLibrary } from '../../src/sessions/library';
import { newPlayer } from '../../src/sessions/player';
import { gradeTake } from '../../src/take/grade-take';
import { writeTake } from '../../src/sessions/take';
import { drop } from './drop';
import { monthOfTakes } from './month';
import { openStage, type Stage } from './page';

// What browsers do to storage: the Storage and IndexedDB standards (persist, QuotaExceededError, versionchange).

let stage: Stage;
beforeAll(async () => {
  stage = await openStage(4321);
});
afterAll(() => stage.close());

const [take] = monthOfTakes();
const file = { name: 'a.take.json', text: writeTake(take) };
const problem = (page: Page) => page.getByRole('alert');

describe('a browser', () => {
  it('is asked once to keep the library for good, and what it says is told', async () => {
    const page = await stage.open({
      path: '#library',
      before: `window.asked = 0;
        navigator.storage.persisted = () => Promise.resolve(false);
        navigator.storage.persist = () => { window.asked += 1; return Promise.resolve(true); };`,
    });
    await page.getByText('This browser keeps the library until you delete it.').waitFor();
    expect(await page.evaluate('window.asked')).toBe(1);

    // A second tab keeps its takes too; this one shows them when it is looked at again.
    const second = await stage.open({ path: '#library', context: page.context() });
    await second.getByText('Evenhand is open in another tab too.').waitFor();
    await drop(second, [file]);
    await second.waitForSelector('evenhand-review-screen article');
    await page.evaluate(() => document.dispatchEvent(new Event('visibilitychange')));
    await page.getByRole('link', { name: 'History', exact: true }).click();
    await page.getByText('1 take on Pad').waitFor();
    await page.context().close();
  });

  it('that keeps nothing is said so, and the page plays and grades all the same', async () => {
    const page = await stage.open({
      path: '#review',
      before: `Object.defineProperty(window, 'indexedDB', { value: undefined });`,
    });
    await problem(page)
      .getByText(/is not there in this browser window/)
      .waitFor();
    await drop(page, [file]);
    await page.getByRole('heading', { name: gradeTake(take).sentence }).waitFor();
    await page.context().close();
  });

  it('without room says so', async () => {
    const page = await stage.open({
      path: '#takes',
      before: `const put = IDBObjectStore.prototype.put;
        IDBObjectStore.prototype.put = function (value, key) {
          if (this.name === 'takes') throw new DOMException('no room', 'QuotaExceededError');
          return put.call(this, value, key);
        };`,
    });
    await page.getByText('None is kept in this browser yet.').waitFor();
    await drop(page, [file]);
    await page
      .getByText(/has no room left/)
      .first()
      .waitFor();
    await page.context().close();
  });

  it('with a database of a newer page is told to load the newest', async () => {
    const page = await stage.open({ path: '#library' });
    await page.getByText('has the turn').waitFor();
    await page.goto('about:blank');
    const newer = await stage.open({ path: '?far', context: page.context() });
    await newer.evaluate(
      () =>
        new Promise<void>((done, fail) => {
          const opening = indexedDB.open('evenhand', 99);
          opening.onerror = () => fail(new Error('not opened'));
          opening.onsuccess = () => {
            opening.result.close();
            done();
          };
        }),
    );
    const old = await stage.open({ path: '#library', context: page.context() });
    await problem(old).getByText(/newer/i).waitFor();
    await page.context().close();
  });
});

describe('a library with records that can’t be read', () => {
  it('shows all others, names these on Library, gives each as a file and removes it', async () => {
    const page = await stage.open({ path: '#takes' });
    await page.getByText('None is kept in this browser yet.').waitFor();
    await drop(page, [file]);
    await page.waitForSelector('evenhand-review-screen article');
    await page.evaluate(
      () =>
        new Promise<void>((done) => {
          const opening = indexedDB.open('evenhand');
          opening.onsuccess = () => {
            const change = opening.result.transaction(['players', 'phrases'], 'readwrite');
            change.objectStore('players').put({ id: 'p9', name: 7 });
            change.objectStore('phrases').put({ name: 'My phrase', phrase: null });
            change.oncomplete = () => {
              opening.result.close();
              done();
            };
          };
        }),
    );
    await page.reload();
    await page.getByRole('link', { name: 'Takes', exact: true }).click();
    await page.locator('table.own').getByRole('button').first().waitFor();
    await page.getByRole('link', { name: 'Library', exact: true }).click();
    await page.getByRole('heading', { name: 'What can’t be read' }).waitFor();
    await page.getByText('name must be text, got 7').waitFor();
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Download Phrase “My phrase”' }).click(),
    ]);
    expect(JSON.parse(readFileSync(await download.path(), 'utf8'))).toMatchObject({
      from: 'phrases',
      value: { name: 'My phrase', phrase: null },
    });
    page.on('dialog', (dialog) => void dialog.accept());
    for (const name of ['Remove Phrase “My phrase”', 'Remove Player “p9”'])
      await page.getByRole('button', { name }).click();
    await expect.poll(() => page.getByRole('heading', { name: 'What can’t be read' }).count()).toBe(0);
    await page.context().close();
  });
});

describe('takes of an older library', () => {
  it('are graded while nothing is played, and then stand in History', async () => {
    const page = await stage.open({ path: '#review' });
    await drop(page, [file]);
    await page.waitForSelector('evenhand-review-screen article');
    await page.getByRole('link', { name: 'History', exact: true }).click();
    await page.getByRole('heading', { name: /^Ceiling tempo / }).waitFor();
    // As a library of the first version is brought over: the record has no figures.
    await page.evaluate(
      (id) =>
        new Promise<void>((done) => {
          const opening = indexedDB.open('evenhand');
          opening.onsuccess = () => {
            const change = opening.result.transaction(['summaries', 'small'], 'readwrite');
            const records = change.objectStore('summaries');
            change.objectStore('small').delete('graded for History');
            const asked = records.get(id);
            asked.onsuccess = () => records.put({ ...asked.result, graded: null });
            change.oncomplete = () => {
              opening.result.close();
              done();
            };
          };
        }),
      take.id,
    );
    await page.reload();
    await page.getByRole('heading', { name: /^Ceiling tempo / }).waitFor();
    await page.context().close();
  });
});

describe('a file of years', () => {
  /** A backup with this many takes. */
  const backup = (takes: number): string =>
    writeLibrary(
      libraryOf(
        {
          players: [newPlayer('p', 'Kim', '2026-01-01T00:00:00.000Z')],
          phrases: [],
          rigs: [],
          sheets: [],
          notes: [],
          takes: Array.from({ length: takes }, (_, index) => ({
            take: { ...take, id: `t${index}` },
            playerId: 'p',
            sentence: 's',
            graded: null,
          })),
        },
        '2026-01-01T00:00:00.000Z',
      ),
    );

  it('is read beside the page, which goes on meanwhile; it can be stopped, and then nothing of it is taken', async () => {
    const page = await stage.open({ path: '#library' });
    await page.getByText('has the turn').waitFor();
    await page.evaluate((text) => {
      const big = new File([text], 'years.library.json', { type: 'application/json' });
      const data = new DataTransfer();
      data.items.add(big);
      document
        .querySelector('evenhand-app')
        ?.dispatchEvent(new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true }));
    }, backup(1500));
    await page.getByText('Reading years.library.json').waitFor();
    await page.getByRole('button', { name: 'Stop', exact: true }).click();
    await problem(page).getByText('years.library.json: was not read: you stopped it').waitFor();
    expect(await page.getByText('Kim').count()).toBe(0);

    await drop(page, [{ name: 'year.library.json', text: backup(60) }]);
    await page.getByText('Kim').first().waitFor();
    await page.getByRole('link', { name: 'History', exact: true }).click();
    await page.context().close();
  });
});
