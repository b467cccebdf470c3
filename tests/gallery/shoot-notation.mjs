// Pictures of engraved notation, into .pictures/: node tests/gallery/shoot-notation.mjs [page] [width …]
import { mkdirSync } from 'node:fs';
import { chromium } from 'playwright';
import { createServer } from 'vite';

/** A long page is cut into pieces that can be looked at. */
const PIECE_PX = 1500;
const [what = 'notation', ...widths] = process.argv.slice(2);
const server = await createServer({
  server: { host: '127.0.0.1', port: 5198, hmr: false, watch: null },
  logLevel: 'error',
});
await server.listen();
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM_PATH ?? '/usr/bin/chromium-headless-shell',
  args: ['--no-sandbox'],
});
mkdirSync('.pictures', { recursive: true });
for (const width of widths.length > 0 ? widths.map(Number) : [1280, 820, 400]) {
  const page = await browser.newPage({
    viewport: { width, height: 900 },
    colorScheme: process.env.SCHEME ?? 'light',
  });
  page.on('pageerror', (error) => process.stderr.write(`${error.stack}\n`));
  page.on('console', (line) => {
    if (line.type() !== 'debug') process.stderr.write(`${line.text()}\n`);
  });
  await page.goto(`http://127.0.0.1:5198/tests/gallery/notation.html?${process.env.QUERY ?? ''}`);
  await page.waitForTimeout(2500);
  if (process.env.PDF !== undefined) {
    for (const format of ['A4', 'Letter']) {
      await page.pdf({ path: `.pictures/${what}-${format}.pdf`, format, preferCSSPageSize: false });
    }
  }
  const heightPx = await page.evaluate(() => document.documentElement.scrollHeight);
  for (let piece = 0; piece * PIECE_PX < heightPx; piece += 1) {
    await page.screenshot({
      path: `.pictures/${what}-${width}-${piece}.png`,
      fullPage: true,
      clip: { x: 0, y: piece * PIECE_PX, width, height: Math.min(PIECE_PX, heightPx - piece * PIECE_PX) },
    });
  }
  await page.close();
}
await browser.close();
await server.close();
