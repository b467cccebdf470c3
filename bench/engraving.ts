import { chromium } from 'playwright';
import { build, preview } from 'vite';
import { findOrInstallChromium } from '../scripts/chromium.mjs';
import { asWritten, performed } from '../src/exercises/performance';
import { phraseNamed } from '../src/exercises/phrase';
import type { Phrase } from '../src/exercises/types';
import { quantile, type Table } from './table';

const PORT = 4311;
const RUNS = 12;

/** Sixteen bars of sixteenths, and the same with what makes notation dense. */
function phrases(): readonly (readonly [string, Phrase])[] {
  const walk = phraseNamed('Single paradiddle, accent walk');
  const sixteen = { ...walk, bars: walk.bars.flatMap((bar) => [bar, bar, bar, bar]) };
  const flams = phraseNamed('Flam paradiddle');
  const bars = Array.from({ length: 16 }, () => flams.bars[0]);
  const strokes = '{l}R l r r {r}L r l l {l}R (l) r r {r}L (r) l l'.split(' ');
  const unlike = strokes.map((_, index) => ({
    variation: `from stroke ${index + 1}`,
    sticking: [...strokes.slice(index), ...strokes.slice(0, index)].join(' '),
  }));
  return [
    ['accent walk, 4 bars of each', sixteen],
    ['sixteen unlike bars, flams and ghosts', { ...flams, bars: unlike }],
    ['flam paradiddles over feet', performed({ ...flams, bars }, { ...asWritten, feet: 'K--- H---' })],
  ];
}

/** Time to engrave 16 bars anew in the built page, at 1280 and 400 wide, once the engraver is loaded. */
export async function run(): Promise<Table[]> {
  await build({ logLevel: 'error' });
  const server = await preview({ preview: { port: PORT }, logLevel: 'error' });
  const browser = await chromium.launch({ executablePath: findOrInstallChromium(), args: ['--no-sandbox'] });
  const rows: (string | number)[][] = [];
  try {
    for (const width of [1280, 400]) {
      const page = await browser.newPage({ viewport: { width, height: 900 } });
      await page.goto(`http://127.0.0.1:${PORT}/#phrase`);
      await page.getByRole('radio', { name: 'notation' }).check();
      await page.locator('evenhand-notation .system svg').first().waitFor();
      for (const [name, phrase] of phrases()) {
        const ms = await page.evaluate(engravedMs, [phrase, RUNS] as const);
        rows.push([name, width, quantile(ms, 0.5).toFixed(0), quantile(ms, 0.95).toFixed(0)]);
      }
      await page.close();
    }
  } finally {
    await browser.close();
    await server.close();
  }
  return [
    {
      title: 'Engraving 16 bars anew, engraver loaded (asked: under 300 ms)',
      columns: ['phrase', 'px wide', 'median ms', '95 % ms'],
      rows,
    },
  ];
}

/** Runs in the page: gives the notation a new phrase and waits until it has been drawn. */
async function engravedMs([phrase, runs]: readonly [Phrase, number]): Promise<number[]> {
  const notation = document
    .querySelector('evenhand-phrase-screen')
    ?.shadowRoot?.querySelector('evenhand-notation');
  if (!notation) return [];
  const taken: number[] = [];
  for (let run = 0; run < runs; run += 1) {
    const drawn = new Promise((resolve) => notation.addEventListener('engraved', resolve, { once: true }));
    const fromMs = performance.now();
    Object.assign(notation, { phrase: { ...phrase } });
    await drawn;
    taken.push(performance.now() - fromMs);
  }
  return taken;
}
