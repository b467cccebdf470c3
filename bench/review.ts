import { chromium, type Page } from 'playwright';
import { build, preview } from 'vite';
import { findOrInstallChromium } from '../scripts/chromium.mjs';
import { phraseNamed } from '../src/exercises/phrase';
import { modelTake } from '../src/model/model-player';
import { writeTake } from '../src/sessions/take';
import { quantile, type Table } from './table';

const PORT = 4312;
const RUNS = 12;
const BPM = 84;
const MINUTES = 10;

/** Ten minutes of the accent walk: 210 bars. */
function tenMinutes(): { readonly title: string; readonly text: string; readonly strokes: number } {
  const phrase = phraseNamed('Single paradiddle, accent walk');
  const cycles = Math.round((MINUTES * BPM) / (phrase.beatsPerBar * phrase.bars.length));
  const faults = [{ kind: 'leak-before', hand: 'L', db: 6, variation: 'accent on 4' }] as const;
  const { take } = modelTake({ phrase, bpm: BPM, seed: 1, cycles, faults });
  const titled = {
    ...take,
    id: 'ten-minutes',
    source: 'played' as const,
    phrase: { ...phrase, title: 'Ten minutes', cycles },
  };
  return { title: titled.phrase.title, text: writeTake(titled), strokes: take.hits.length };
}

/** From the press that opens a take in Review to the frame that shows its sentence, in the built page. */
export async function run(): Promise<Table[]> {
  await build({ logLevel: 'error' });
  const server = await preview({ preview: { port: PORT }, logLevel: 'error' });
  const browser = await chromium.launch({ executablePath: findOrInstallChromium(), args: ['--no-sandbox'] });
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
    await page.goto(`http://127.0.0.1:${PORT}/#review`);
    const { title, text, strokes } = tenMinutes();
    await page
      .locator('input[type=file]')
      .first()
      .setInputFiles({
        name: 'ten.take.json',
        mimeType: 'application/json',
        buffer: Buffer.from(text),
      });
    const taken: number[] = [];
    for (let run = 0; run < RUNS; run += 1) {
      await page.goto(`http://127.0.0.1:${PORT}/#takes`);
      await page.getByText('Bundled takes, by the model player').click();
      await page.locator('table.bundled button').first().click();
      await page.waitForTimeout(1500);
      await page.goto(`http://127.0.0.1:${PORT}/#takes`);
      await page.getByRole('button', { name: `Open ${title}` }).waitFor();
      taken.push(await openedMs(page, title));
    }
    return [
      {
        title: 'A take of ten minutes: press to the frame with its sentence (asked: under 150 ms)',
        columns: ['strokes', 'least ms', 'median ms', '95 % ms'],
        rows: [
          [
            strokes,
            quantile(taken, 0).toFixed(0),
            quantile(taken, 0.5).toFixed(0),
            quantile(taken, 0.95).toFixed(0),
          ],
        ],
      },
    ];
  } finally {
    await browser.close();
    await server.close();
  }
}

function openedMs(page: Page, title: string): Promise<number> {
  return page.evaluate(async (name) => {
    const words = () =>
      document.querySelector('evenhand-review-screen')?.shadowRoot?.querySelector('article h1')
        ?.textContent ?? '';
    const takes = document.querySelector('evenhand-takes-screen')?.shadowRoot;
    const open = takes?.querySelector<HTMLElement>(`button[aria-label^="Open ${name}"]`);
    const fromMs = performance.now();
    open?.click();
    while (words() === '') await new Promise(requestAnimationFrame);
    // The frame that this callback belongs to has the sentence, and is painted when the next task runs.
    await new Promise((painted) => setTimeout(painted));
    return performance.now() - fromMs;
  }, title);
}
