import { chromium, type Page } from 'playwright';
import { build, preview } from 'vite';
import { findOrInstallChromium } from '../scripts/chromium.mjs';
import { installFakeMidi } from '../tests/fake-midi';
import type { Table } from './table';

const PORT = 4316;
/** Sixteenths at 225 bpm: 15 strokes a second. */
const BPM = 225;
const STROKE_MS = 60_000 / BPM / 4;
/** Of a take of sixty: the page's clock also goes on while the heap is collected, and the take must not end. */
const MINUTES = Number(process.env['HOUR_MINUTES'] ?? 57);
/** What a page makes once is made by then. */
const WARM_MINUTES = 1;
const STEP_MS = 2000;

interface Devices {
  readonly pad: { send(bytes: number[], at?: number): void };
  readonly module: { readonly sent: { readonly timestamp: number }[] };
}

/** Lays strokes on the page's clock for a while, from the downbeat on. */
const lay = ([fromMs, strokes, strokeMs, first]: readonly [number, number, number, number]): void => {
  const { pad, module } = window as unknown as Devices;
  for (let index = 0; index < strokes; index += 1) {
    const at = fromMs + index * strokeMs;
    const accented = (first + index) % 4 === 0;
    const velocity = (accented ? 100 : 40) + ((index * 37) % 9);
    setTimeout(() => pad.send([0x99, 38, velocity], at), at - performance.now());
  }
  // The virtual module writes down every click: that is the bench's own memory, not the page's.
  module.sent.length = 1;
};

async function begun(page: Page): Promise<number> {
  await page.goto(`http://127.0.0.1:${PORT}/#phrase`);
  await page.getByRole('spinbutton', { name: 'Tempo' }).fill(String(BPM));
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Play this' }).click();
  await page.getByRole('button', { name: /MIDI/ }).click();
  await page.getByText('Strike once with your right hand').waitFor();
  await page.evaluate('window.pad.send([0x99, 38, 90])');
  await page.clock.runFor(300);
  await page.evaluate('window.pad.send([0x99, 38, 90])');
  await page.clock.runFor(300);
  const ways = page.locator('evenhand-playing-options');
  await ways.locator('summary').click();
  await ways.getByLabel('Length').selectOption('minutes');
  await ways.getByRole('spinbutton', { name: 'Minutes' }).fill('60');
  await page.keyboard.press('Enter');
  await ways.getByLabel('Silence ends it').selectOption('never');
  await page.getByLabel('Click').selectOption({ label: 'A note on Module' });
  await page.getByRole('button', { name: 'Start', exact: true }).click();
  await page.clock.runFor(600);
  return page.evaluate(
    (beatMs) => (window as unknown as Devices).module.sent[0].timestamp + 4 * beatMs,
    60_000 / BPM,
  );
}

/**
 * An hour of play on the page's own clock, run fast, with the far view looking on: heap after a forced collection, of the
 * player's window. The hits of an hour are kept in memory until the take ends, by intent: nothing is lost by a full disk.
 */
export async function run(): Promise<Table[]> {
  await build({ logLevel: 'error' });
  const server = await preview({ preview: { port: PORT, strictPort: true }, logLevel: 'error' });
  const browser = await chromium.launch({ executablePath: findOrInstallChromium(), args: ['--no-sandbox'] });
  try {
    const context = await browser.newContext();
    const page = await context.newPage();
    await page.clock.install();
    await page.addInitScript(
      `(${installFakeMidi.toString()})(window);
      window.pad = window.fakeMidi.addInput('Pad');
      window.module = window.fakeMidi.addOutput('Module');`,
    );
    const downbeatMs = await begun(page);
    const far = await context.newPage();
    await far.goto(`http://127.0.0.1:${PORT}/?far`);
    await far.getByRole('button', { name: 'Mark this bar' }).waitFor();
    await page.bringToFront();
    const session = await context.newCDPSession(page);
    const heapMb = async (): Promise<number> => {
      await session.send('HeapProfiler.collectGarbage');
      return (await session.send('Runtime.getHeapUsage')).usedSize / 1e6;
    };
    const rows: (readonly (string | number)[])[] = [];
    let before = 0;
    let strokes = 0;
    const perStep = Math.round(STEP_MS / STROKE_MS);
    const steps = Math.floor((MINUTES * 60_000) / (perStep * STROKE_MS));
    for (let step = 0; step < steps; step += 1) {
      await page.evaluate(lay, [downbeatMs + strokes * STROKE_MS, perStep, STROKE_MS, strokes] as const);
      strokes += perStep;
      // The page's clock goes on by itself too: it is run to where these strokes end, not so much further.
      const nowMs = await page.evaluate(() => performance.now());
      await page.clock.runFor(Math.max(1, downbeatMs + strokes * STROKE_MS - nowMs));
      const minutes = (strokes * STROKE_MS) / 60_000;
      const last = (step * perStep * STROKE_MS) / 60_000;
      if (Math.floor(minutes) === Math.floor(last) && step < steps - 1) continue;
      const minute = Math.floor(minutes);
      if (minute !== WARM_MINUTES && minute % 10 !== 0 && step < steps - 1) continue;
      const now = await heapMb();
      if (before === 0) before = now;
      rows.push([minute, strokes, now.toFixed(2), (now - before).toFixed(2)]);
    }
    const shown = await page.evaluate(
      () =>
        (document.querySelector('evenhand-play-screen') as unknown as { live: { strokes: number } }).live
          .strokes,
    );
    rows.push(['heard by the page', shown, '', '']);
    return [
      {
        title: 'An hour’s play, 15 strokes/s, the far view looking on (asked: under 10 MB more)',
        columns: ['minute', 'strokes', 'heap MB', 'more than after the first minute'],
        rows,
      },
    ];
  } finally {
    await browser.close();
    await server.close();
  }
}
