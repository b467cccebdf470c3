// Pictures of the screens with invented data, into .pictures/: node tests/gallery/shoot.mjs [screen …]
import { mkdirSync } from 'node:fs';
import { chromium } from 'playwright';
import { createServer } from 'vite';
import { phrases } from './play-phrases.mjs';

const screens = process.argv.slice(2);
const server = await createServer({
  server: { host: '127.0.0.1', port: 5199, hmr: false, watch: null },
  logLevel: 'error',
});
await server.listen();
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM_PATH ?? '/usr/bin/chromium-headless-shell',
  args: ['--no-sandbox'],
});
mkdirSync('.pictures', { recursive: true });
for (const screen of screens.length > 0 ? screens : ['play', 'play-idle', 'phrase', 'review']) {
  for (const [width, height] of [
    [1280, 800],
    [820, 1180],
    ...(process.env.NARROW === undefined ? [] : [[400, 860]]),
  ]) {
    for (const colorScheme of process.env.SCHEME === undefined ? ['light', 'dark'] : [process.env.SCHEME]) {
      const page = await browser.newPage({
        viewport: { width, height },
        colorScheme,
        contrast: process.env.CONTRAST ?? 'no-preference',
      });
      page.on('pageerror', (error) => process.stderr.write(`${screen}: ${error.message}\n`));
      page.on('console', (line) => {
        if (line.type() !== 'debug') process.stderr.write(`${screen}: ${line.text()}\n`);
      });
      const what = Object.hasOwn(phrases, screen) ? phrases[screen] : { screen };
      await page.goto(`http://127.0.0.1:5199/tests/gallery/gallery.html?${new URLSearchParams(what)}`);
      await page.waitForTimeout(900);
      if (screen.includes('open')) await page.getByText('All measures').first().click();
      await page.screenshot({ path: `.pictures/${screen}-${width}-${colorScheme}.png`, fullPage: true });
      await page.close();
    }
  }
}
await browser.close();
await server.close();
