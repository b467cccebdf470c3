import { createReadStream, cpSync, mkdtempSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { extname, join } from 'node:path';
import { chromium, type Browser, type BrowserContext, type Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

// The Service Worker standard, in Chromium, on a copy of the build that the test may change.

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.webmanifest': 'application/manifest+json',
};

const folder = mkdtempSync(join(tmpdir(), 'evenhand-offline-'));
let server: Server;
let browser: Browser;
let url = '';

beforeAll(async () => {
  cpSync('dist', folder, { recursive: true });
  server = createServer((request, response) => {
    const path = new URL(request.url ?? '/', 'http://here').pathname;
    const file = join(folder, path === '/' ? 'index.html' : path);
    if (statSync(file, { throwIfNoEntry: false })?.isFile() !== true) {
      response.writeHead(404).end();
      return;
    }
    response.writeHead(200, { 'content-type': TYPES[extname(file)] ?? 'text/plain', vary: 'Origin' });
    createReadStream(file).pipe(response);
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  url = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
  browser = await chromium.launch({
    executablePath: process.env['CHROMIUM_PATH'] ?? '',
    args: ['--no-sandbox', '--disable-background-networking'],
  });
});
afterAll(async () => {
  await browser.close();
  server.closeAllConnections();
  server.close();
});

async function firstVisit(context: BrowserContext): Promise<Page> {
  const page = await context.newPage();
  await page.goto(url);
  await page.getByRole('heading', { name: 'Today' }).waitFor();
  await page.evaluate(() => navigator.serviceWorker.ready);
  return page;
}

describe('with the network off', () => {
  it('after the first visit everything opens, the charts, the engraver and the bundled takes too', async () => {
    const context = await browser.newContext();
    const first = await firstVisit(context);
    await first.close();
    await context.setOffline(true);
    const page = await context.newPage();
    const troubles: string[] = [];
    page.on('pageerror', (error) => troubles.push(error.message));
    await page.goto(`${url}#takes`);
    await page.getByText(/^Bundled takes, by the model player: /).click();
    await page
      .getByRole('button', { name: /left up stroke/i })
      .first()
      .click();
    await page.locator('evenhand-review-screen article').waitFor();
    await page.locator('evenhand-picture canvas').first().waitFor();
    await page.getByRole('link', { name: 'Phrase', exact: true }).click();
    await page.getByLabel('notation').check();
    await page.waitForFunction(() => {
      const screen = document.querySelector('evenhand-phrase-screen')?.shadowRoot;
      const notation = screen?.querySelector('evenhand-notation');
      return (notation?.shadowRoot?.querySelectorAll('svg').length ?? 0) > 0;
    });
    expect(troubles).toEqual([]);
    await context.close();
  });

  it('can be installed: a manifest with a name, a start and icons that are there', async () => {
    const manifest = JSON.parse(readFileSync(join(folder, 'manifest.webmanifest'), 'utf8')) as {
      readonly name: string;
      readonly display: string;
      readonly icons: readonly { readonly src: string; readonly sizes: string }[];
    };
    expect([manifest.name, manifest.display]).toEqual(['Evenhand', 'standalone']);
    for (const { src, sizes } of manifest.icons.filter((icon) => icon.src.endsWith('.png'))) {
      // PNG, ISO 15948: the width stands in bytes 16 to 19.
      const width = readFileSync(join(folder, src)).readUInt32BE(16);
      expect(`${width}x${width}`).toBe(sizes);
    }
    const context = await browser.newContext();
    const page = await firstVisit(context);
    const link = await page.locator('link[rel=manifest]').getAttribute('href');
    expect(link).toBe('./manifest.webmanifest');
    await context.close();
  });
});

describe('a newer version', () => {
  it('waits, through a reload too, until the player asks for it', async () => {
    const context = await browser.newContext();
    const page = await firstVisit(context);
    const before = readFileSync(join(folder, 'sw.js'), 'utf8');
    const html = readFileSync(join(folder, 'index.html'), 'utf8');
    writeFileSync(
      join(folder, 'index.html'),
      html.replace('<title>Evenhand</title>', '<title>Newer</title>'),
    );
    writeFileSync(join(folder, 'sw.js'), before.replace(/evenhand-[0-9a-f]{12}/, 'evenhand-000000000001'));
    try {
      await page.reload();
      const load = page.getByRole('button', { name: 'Load it now' });
      await load.waitFor();
      expect(await page.title()).toMatch(/ – Evenhand$/);
      await page.reload();
      await load.waitFor();
      expect(await page.title()).toMatch(/ – Evenhand$/);
      // While another tab plays a take it is refused, and the take goes on.
      const playing = await context.newPage();
      await playing.goto(`${url}#play`);
      await playing.getByLabel('Input').selectOption('take:left-up-stroke-leaks');
      await playing.getByRole('button', { name: 'Start', exact: true }).click();
      await playing.getByRole('button', { name: 'Stop', exact: true }).waitFor();
      await load.click();
      await page.getByText('A take is being played: the newer version waits until it is over.').waitFor();
      expect(await playing.getByRole('button', { name: 'Load it now' }).count()).toBe(0);
      expect(await playing.title()).toMatch(/ – Evenhand$/);
      await playing.close();
      await load.click();
      await expect.poll(() => page.title().catch(() => '')).toMatch(/ – Newer$/);
    } finally {
      writeFileSync(join(folder, 'sw.js'), before);
      writeFileSync(join(folder, 'index.html'), html);
    }
    await context.close();
  });
});

describe('an update that fails half-way', () => {
  it('leaves no cache and displaces nothing: the page opens offline as before', async () => {
    const context = await browser.newContext();
    const page = await firstVisit(context);
    const caches = (): Promise<string[]> => page.evaluate(() => window.caches.keys());
    const before = await caches();
    const worker = readFileSync(join(folder, 'sw.js'), 'utf8');
    // One file of the newer version is not there; it is asked for three times over, as by three updates.
    try {
      for (const name of ['evenhand-00000000000a', 'evenhand-00000000000b', 'evenhand-00000000000c']) {
        const broken = worker
          .replace(/evenhand-[0-9a-f]{12}/, name)
          .replace('"./index.html"', '"./index.html", "./missing.js"');
        writeFileSync(join(folder, 'sw.js'), broken);
        const failed = await page.evaluate(async () => {
          const registration = await navigator.serviceWorker.ready;
          await registration.update().catch(() => undefined);
          const fresh = registration.installing;
          if (fresh === null) return 'redundant';
          return new Promise<string>((done) => {
            fresh.addEventListener('statechange', () => {
              if (fresh.state !== 'installing') done(fresh.state);
            });
          });
        });
        expect(failed).toBe('redundant');
        expect(await caches()).toEqual(before);
      }
    } finally {
      writeFileSync(join(folder, 'sw.js'), worker);
    }
    await context.setOffline(true);
    await page.reload();
    await page.getByRole('heading', { name: 'Today' }).waitFor();
    await context.close();
  });

  it('one that a dying browser left empty does not take the place of the version before', async () => {
    const context = await browser.newContext();
    const page = await firstVisit(context);
    const [inUse] = await page.evaluate(() => window.caches.keys());
    await page.evaluate(() => window.caches.open('evenhand-00000000000d').then(() => undefined));
    const worker = readFileSync(join(folder, 'sw.js'), 'utf8');
    writeFileSync(join(folder, 'sw.js'), worker.replace(/evenhand-[0-9a-f]{12}/, 'evenhand-00000000000e'));
    try {
      await page.reload();
      await page.getByRole('button', { name: 'Load it now' }).click();
      await expect
        .poll(() => page.evaluate(() => window.caches.keys()).catch(() => []))
        .toEqual([inUse, 'evenhand-00000000000e']);
    } finally {
      writeFileSync(join(folder, 'sw.js'), worker);
    }
    await context.close();
  });
});

describe('a file that the browser threw out', () => {
  const throwOut = (page: Page, ending: string): Promise<string[]> =>
    page.evaluate(async (end) => {
      const gone: string[] = [];
      for (const name of await caches.keys()) {
        const cache = await caches.open(name);
        for (const request of await cache.keys()) {
          const { pathname } = new URL(request.url);
          if (pathname.endsWith(end) && (await cache.delete(request))) gone.push(pathname);
        }
      }
      return gone;
    }, ending);

  it('is fetched again and kept, so that the page opens offline once more', async () => {
    const context = await browser.newContext();
    const page = await firstVisit(context);
    const gone = await throwOut(page, '.js');
    expect(gone.length).toBeGreaterThan(3);
    await page.reload();
    await page.getByRole('heading', { name: 'Today' }).waitFor();
    await context.setOffline(true);
    await page.reload();
    await page.getByRole('heading', { name: 'Today' }).waitFor();
    await context.close();
  });

  it('is named where there is no network to fetch it from', async () => {
    const context = await browser.newContext();
    const page = await firstVisit(context);
    expect(await throwOut(page, '/index.html')).toHaveLength(1);
    await context.setOffline(true);
    await page.reload();
    await page.getByText('the browser has thrown out index.html').waitFor();
    await context.close();
  });
});
