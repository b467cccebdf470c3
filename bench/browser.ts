import { chromium, type Browser, type CDPSession, type Page } from 'playwright';
import { build, preview } from 'vite';
import { findOrInstallChromium } from '../scripts/chromium.mjs';
import { installFakeMidi } from '../tests/fake-midi';
import { quantile, type Table } from './table';

const PORT = 4310;
/** Sixteenths at 225 bpm: 15 strokes a second. */
const BPM = 225;
const STROKES_A_SECOND = (BPM / 60) * 4;
const SECONDS = 20;
const ROUNDS = 3;
const BURST_SECONDS = 10;
const BURST_RATE = 1000;

/** What the page measured: ms from a message's arrival to the first task after the frame it was drawn in. */
interface Measured {
  readonly paintedMs: readonly number[];
  readonly frameMs: number;
}

/** The virtual pad and module of the page. */
interface Devices {
  readonly pad: { send(bytes: number[], at?: number): void };
  readonly module: { readonly sent: readonly { readonly timestamp: number }[] };
}

async function openPlay(page: Page): Promise<void> {
  await page.addInitScript(
    `(${installFakeMidi.toString()})(window);
    window.pad = window.fakeMidi.addInput('Pad');
    window.module = window.fakeMidi.addOutput('Module');`,
  );
  await page.goto(`http://127.0.0.1:${PORT}/`);
  await page.getByRole('spinbutton', { name: 'Tempo' }).fill(String(BPM));
  await page.keyboard.press('Enter');
  await page.getByRole('spinbutton', { name: 'Cycles' }).fill('100');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Play this' }).click();
  await page.getByRole('button', { name: /MIDI/ }).click();
  await page.waitForTimeout(300);
  for (let strike = 0; strike < 2; strike += 1) {
    await page.evaluate('window.pad.send([0x99, 38, 90])');
    await page.waitForTimeout(300);
  }
  await page.getByLabel('Click').selectOption({ label: 'A note on Module' });
  await page.getByRole('button', { name: 'Start' }).click();
  await page.waitForTimeout(600);
}

/** Sends strokes and watches the drawing: the frame in which the bar view's strokes are drawn with it. */
const measurePainted = async ([rate, seconds]: readonly [number, number]): Promise<Measured> => {
  const frames: number[] = [];
  const channel = new MessageChannel();
  const paintedMs: number[] = [];
  let waiting: number[] = [];
  let drawn: number[] = [];
  // The strokes are on a canvas that is wiped first: what arrived before that is in the drawing that follows.
  const context = CanvasRenderingContext2D.prototype;
  const wipe = context.clearRect;
  context.clearRect = function (...box) {
    drawn.push(...waiting);
    waiting = [];
    wipe.apply(this, box);
  };
  channel.port1.onmessage = () => {
    const now = performance.now();
    for (const at of drawn) paintedMs.push(now - at);
    drawn = [];
  };
  let last = 0;
  let running = true;
  const eachFrame = (time: number): void => {
    if (last > 0) frames.push(time - last);
    last = time;
    // After this frame's callbacks and drawing, a task.
    requestAnimationFrame(eachFrame);
    channel.port2.postMessage(null);
    if (!running) channel.port1.close();
  };
  requestAnimationFrame(eachFrame);
  const { pad, module } = window as unknown as Devices;
  // The click's own first note says when the downbeat is: four beats on.
  const startMs = module.sent[0].timestamp + (16 * 1000) / rate;
  for (let index = 0; index < rate * seconds; index += 1) {
    // Played to the grid, off by as much as a frame is long: 15 a second would else keep step with the frames.
    // The first of a bar is not early: its bar is not on the screen yet.
    const dueMs =
      startMs + (index * 1000) / rate + (index % 16 === 0 ? 0 : ((index * 7919) % 167) / 10 - 8.3);
    while (performance.now() < dueMs) await new Promise((done) => setTimeout(done, 0));
    waiting.push(performance.now());
    pad.send([0x99, 38, 30 + ((index * 37) % 90)]);
  }
  await new Promise((done) => setTimeout(done, 300));
  running = false;
  const sorted = frames.toSorted((a, b) => a - b);
  return { paintedMs, frameMs: sorted[sorted.length >> 1] };
};

const burst = async ([rate, seconds]: readonly [number, number]): Promise<number> => {
  const { pad } = window as unknown as Devices;
  const startMs = performance.now();
  let sent = 0;
  while (sent < rate * seconds) {
    const due = Math.min(rate * seconds, Math.floor(((performance.now() - startMs) * rate) / 1000));
    for (; sent < due; sent += 1) pad.send([0x99, 38, 1 + (sent % 127)]);
    await new Promise((done) => setTimeout(done, 0));
  }
  return sent;
};

/** Seconds the page has spent so far, by kind of work. */
async function costsOf(session: CDPSession): Promise<Readonly<Record<string, number>>> {
  const { metrics } = await session.send('Performance.getMetrics');
  return Object.fromEntries(metrics.map(({ name, value }) => [name, value]));
}

/** One round of strokes to painted frames, as a row of the table. */
async function paintedRow(browser: Browser): Promise<(string | number)[]> {
  const page = await browser.newPage();
  await openPlay(page);
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable');
  const before = await costsOf(session);
  const { paintedMs, frameMs } = await page.evaluate(measurePainted, [STROKES_A_SECOND, SECONDS] as const);
  const after = await costsOf(session);
  await page.close();
  const strokes = STROKES_A_SECOND * SECONDS;
  const at = (share: number): string => quantile(paintedMs, share).toFixed(1);
  const perStroke = (name: string): string => ((1000 * (after[name] - before[name])) / strokes).toFixed(2);
  const work = ['ScriptDuration', 'RecalcStyleDuration', 'LayoutDuration'].map(perStroke);
  return [strokes, paintedMs.length, frameMs.toFixed(1), at(0.5), at(0.95), at(1), ...work];
}

/** Message to painted frame, and a burst, in headless Chromium on the built page through the real webmidi library. */
export async function run(): Promise<Table[]> {
  await build({ logLevel: 'error' });
  const server = await preview({ preview: { port: PORT, strictPort: true }, logLevel: 'error' });
  const browser = await chromium.launch({ executablePath: findOrInstallChromium(), args: ['--no-sandbox'] });
  try {
    const rounds: (readonly (string | number)[])[] = [];
    for (let round = 1; round <= ROUNDS; round += 1) rounds.push([round, ...(await paintedRow(browser))]);

    const other = await browser.newPage();
    await openPlay(other);
    // Past the count-in: what is struck before the downbeat is no part of the take.
    await other.waitForTimeout(1500);
    const sent = await other.evaluate(burst, [BURST_RATE, BURST_SECONDS] as const);
    await other.getByRole('button', { name: 'Stop' }).click();
    await other.waitForSelector('evenhand-review-screen', { timeout: 60_000 });
    const kept = await other.evaluate(
      () =>
        (document.querySelector('evenhand-review-screen') as unknown as { take: { hits: unknown[] } }).take
          .hits.length,
    );
    return [
      {
        title:
          'MIDI message to painted frame, 15 strokes/s, and ms a stroke of the page’s work (asked: 95 % within one frame + 2 ms)',
        columns: [
          'round',
          'strokes',
          'drawn',
          'frame ms',
          'median ms',
          '95 % ms',
          'largest ms',
          'script',
          'style',
          'layout',
        ],
        rows: rounds,
      },
      {
        title: 'A burst of 1,000 messages/s for 10 s (asked: none lost)',
        columns: ['sent', 'in the take', 'lost'],
        rows: [[sent, kept, sent - kept]],
      },
    ];
  } finally {
    await browser.close();
    await server.close();
  }
}
