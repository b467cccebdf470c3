// Takes pictures of every screen of the built page, light and dark, at 1280 and 820 wide, into .pictures/.
// `node scripts/pictures.mjs [--fast]`; the page must be built (`npm run build`).
import { mkdirSync } from 'node:fs';
import { chromium } from 'playwright';
import { preview } from 'vite';
import { findOrInstallChromium } from './chromium.mjs';

const FOLDER = '.pictures';
const PLAYED_MS = 26_000;
mkdirSync(FOLDER, { recursive: true });

const server = await preview({ preview: { port: 4199 }, logLevel: 'error' });
const browser = await chromium.launch({
  executablePath: findOrInstallChromium(),
  args: ['--no-sandbox', '--disable-background-networking'],
});

async function pictures(colorScheme, width) {
  const context = await browser.newContext({ colorScheme, viewport: { width, height: 900 } });
  const page = await context.newPage();
  page.on('console', (message) => process.stderr.write(`${message.type()}: ${message.text()}\n`));
  page.on('pageerror', (error) => process.stderr.write(`page error: ${error.message}\n`));
  const shot = (name, fullPage = true) =>
    page.screenshot({ path: `${FOLDER}/${name}-${colorScheme}-${width}.png`, fullPage });
  await page.goto(`http://127.0.0.1:${server.httpServer.address().port}/#phrase`);
  await page.waitForSelector('evenhand-phrase-screen');
  await shot('phrase');
  await page.getByRole('button', { name: /play this/i }).click();
  await page.waitForSelector('evenhand-play-screen');
  await shot('play-first');
  await page
    .getByRole('button', { name: /allow|connect|midi/i })
    .first()
    .click()
    .catch(() => undefined);
  await page.waitForTimeout(300);
  await shot('play-no-midi');
  await page.getByLabel('Input').selectOption('take:left-up-stroke-leaks');
  await page.waitForTimeout(300);
  await page.getByRole('button', { name: 'Start' }).click();
  await page.waitForTimeout(1500);
  await shot('play-count-in');
  await page.waitForTimeout(PLAYED_MS);
  await shot('play-running', false);
  await page.getByRole('button', { name: 'Stop' }).click();
  await page.waitForSelector('evenhand-review-screen');
  await page.waitForTimeout(600);
  await shot('review-short');
  await page.evaluate(() => {
    document.querySelector('evenhand-review-screen').dispatchEvent(
      new CustomEvent('action', {
        detail: { kind: 'open take', id: 'take:left-up-stroke-leaks' },
        bubbles: true,
        composed: true,
      }),
    );
  });
  await page.waitForTimeout(900);
  await shot('review');
  await page.locator('summary', { hasText: 'All measures' }).click();
  await page.waitForTimeout(300);
  await shot('review-all');
  await context.close();
}

const schemes = process.argv.includes('--fast')
  ? [['light', 1280]]
  : [
      ['light', 1280],
      ['dark', 1280],
      ['light', 820],
      ['dark', 820],
    ];
await Promise.all(schemes.map(([scheme, width]) => pictures(scheme, width)));
await browser.close();
await server.close();
