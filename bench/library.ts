import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type BrowserContext } from 'playwright';
import { build, preview } from 'vite';
import { findOrInstallChromium } from '../scripts/chromium.mjs';
import { phraseNamed } from '../src/exercises/phrase';
import { gradedRecord } from '../src/insight/graded-record';
import { gradeTake } from '../src/take/grade-take';
import { modelTake } from '../src/model/model-player';
import { summaryOf, type TakeSummary } from '../src/sessions/take-record';
import type { Take } from '../src/sessions/types';
import type { Table } from './table';

const PORT = 4311;
const TAKES = 10_000;
const ROUNDS = 5;
const PACKED_MS = 8000;
/** As many as Takes lists first, and its head. */
const LISTED = 21;

interface Filling {
  readonly take: Take;
  readonly summary: TakeSummary;
  readonly n: number;
}

/** Ten thousand takes of one player, two a day, over years: one take's strokes each, its own record, its own day. */
const fill = async ({ take, summary, n }: Filling): Promise<void> => {
  const db = await new Promise<IDBDatabase>((done, fail) => {
    const opening = indexedDB.open('evenhand');
    opening.onsuccess = () => done(opening.result);
    opening.onerror = () => fail(new Error('no database'));
  });
  const playerId = await new Promise<string>((done) => {
    const asked = db.transaction('players').objectStore('players').getAllKeys();
    asked.onsuccess = () => done(String(asked.result[0]));
  });
  const first = Date.parse('2013-01-01T17:00:00.000Z');
  for (let from = 0; from < n; from += 500) {
    const change = db.transaction(['takes', 'summaries'], 'readwrite');
    for (let index = from; index < Math.min(n, from + 500); index += 1) {
      const id = `take-${index}`;
      const recordedAt = new Date(first + index * 43_200_000).toISOString();
      change.objectStore('takes').put({ ...take, id, recordedAt });
      change.objectStore('summaries').put({ ...summary, id, recordedAt, playerId });
    }
    await new Promise((done) => (change.oncomplete = done));
  }
  db.close();
};

/** Ms from the start of the navigation to the first frame after the list stands on the screen. */
const drawnMs = ([screen, selector, least, not]: readonly [
  string,
  string,
  number,
  string?,
]): Promise<number> =>
  new Promise((done) => {
    const look = (): void => {
      const root = document.querySelector(screen)?.shadowRoot;
      const waits = not !== undefined && root?.querySelector(not) !== null;
      if (!waits && (root?.querySelectorAll(selector).length ?? 0) >= least) {
        requestAnimationFrame(() => done(performance.now()));
      } else requestAnimationFrame(look);
    };
    look();
  });

const screens = [
  ['Takes: the newest 20 listed', '#takes', ['evenhand-takes-screen', 'table.own tr', LISTED]],
  ['Today: the plan made from all takes', '#today', ['evenhand-today-screen', '.plan li', 5, '.first']],
  ['Library: players and storage', '#library', ['evenhand-library-screen', 'evenhand-player-row', 1]],
  ['History: lines over all the years', '#history', ['evenhand-history-screen', 'evenhand-picture', 3]],
] as const;

const launch = (folder: string): Promise<BrowserContext> =>
  chromium.launchPersistentContext(folder, {
    executablePath: findOrInstallChromium(),
    args: ['--no-sandbox', '--disable-background-networking'],
  });

/** Ten thousand takes on disk: a browser just started, from opening the page to its list drawn. */
export async function run(): Promise<Table[]> {
  await build({ logLevel: 'error' });
  const server = await preview({ preview: { port: PORT, strictPort: true }, logLevel: 'error' });
  const [folder, empty] = [0, 1].map(() => mkdtempSync(join(tmpdir(), 'evenhand-bench-')));
  try {
    await filled(folder);
    const rows: (readonly (string | number)[])[] = [];
    await fresh(empty);
    for (const [name, path, watched] of screens) {
      const times = await openings(folder, path, watched);
      rows.push([name, TAKES, times[ROUNDS >> 1].toFixed(0), times[ROUNDS - 1].toFixed(0)]);
    }
    const [, path, watched] = screens[2];
    const times = await openings(empty, path, watched);
    rows.push([
      'the same Library without a take',
      0,
      times[ROUNDS >> 1].toFixed(0),
      times[ROUNDS - 1].toFixed(0),
    ]);
    return [
      {
        title: `${TAKES} takes of one player: a browser just started, from opening the page to the screen drawn (asked: under 1000 ms)`,
        columns: ['screen', 'takes', 'median ms', 'largest ms'],
        rows,
      },
    ];
  } finally {
    await server.close();
    for (const one of [folder, empty]) rmSync(one, { recursive: true, force: true });
  }
}

/** A browser started anew for each opening: ms, in order. */
async function openings(
  folder: string,
  path: string,
  watched: readonly [string, string, number, string?],
): Promise<readonly number[]> {
  const times: number[] = [];
  for (let round = 0; round < ROUNDS; round += 1) {
    const context = await launch(folder);
    const page = await context.newPage();
    await page.goto(`http://127.0.0.1:${PORT}/${path}`);
    times.push(await page.evaluate(drawnMs, watched));
    await context.close();
  }
  return times.sort((a, b) => a - b);
}

/** A browser that has been here once, so that its files are there as on any other day. */
async function fresh(folder: string): Promise<void> {
  const context = await launch(folder);
  const page = await context.newPage();
  await page.goto(`http://127.0.0.1:${PORT}/#library`);
  await page.evaluate(drawnMs, screens[2][2]);
  await page.waitForTimeout(1000);
  await context.close();
}

async function filled(folder: string): Promise<void> {
  const { take } = modelTake({
    phrase: phraseNamed('Single paradiddle, accent walk'),
    bpm: 84,
    seed: 1,
    cycles: 8,
  });
  const report = gradeTake(take);
  const summary: TakeSummary = {
    ...summaryOf(take),
    sentence: report.sentence,
    graded: gradedRecord(take, report),
  };
  const context = await launch(folder);
  const page = await context.newPage();
  await page.goto(`http://127.0.0.1:${PORT}/#takes`);
  await page.getByText('None is kept in this browser yet.').waitFor();
  await page.evaluate(fill, { take, summary, n: TAKES });
  // Once more, as on any day: behind its first list the records are packed.
  await page.reload();
  await page.evaluate(drawnMs, screens[0][2]);
  await page.waitForTimeout(PACKED_MS);
  await context.close();
}
