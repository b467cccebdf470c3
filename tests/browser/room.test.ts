import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Take } from '../../src/sessions/types';
import { openStage, setUpOnePad, strike, type Stage } from './page';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage(4308);
});
afterAll(() => stage.close());

const PAD = 'Virtual pad';

async function openPlaying(page: Page, bpm = 200, cycles = 50): Promise<void> {
  await page.getByRole('link', { name: 'Phrase' }).click();
  for (const [name, value] of [
    ['Tempo', bpm],
    ['Cycles', cycles],
  ] as const) {
    await page.getByRole('spinbutton', { name, exact: true }).fill(String(value));
    await page.getByRole('spinbutton', { name, exact: true }).press('Enter');
  }
  await page.getByRole('button', { name: 'Play this' }).click();
  await setUpOnePad(page);
  await page.getByRole('button', { name: 'Start', exact: true }).click();
  await page.waitForTimeout(2400);
}

/** Strikes by turns loud and soft, 75 ms apart: sixteenths at 200 bpm. */
async function playSome(page: Page, strokes: number): Promise<void> {
  for (let index = 0; index < strokes; index += 1) {
    await strike(page, PAD, index % 4 === 0 ? 110 : 40);
    await page.waitForTimeout(60);
  }
}

async function openTake(page: Page): Promise<Take> {
  await page.waitForSelector('evenhand-review-screen');
  await page.getByRole('button', { name: 'Download the take' }).waitFor();
  return page.evaluate(
    () => (document.querySelector('evenhand-review-screen') as unknown as { take: Take }).take,
  );
}

describe('the far view in a second window', () => {
  it('follows the player, is plainly stale when they are gone, and comes back by itself', async () => {
    const page = await stage.open();
    await openPlaying(page);
    const far = await stage.open({ context: page.context(), path: '?far' });
    await far.getByRole('button', { name: 'Mark this bar' }).waitFor();
    await playSome(page, 40);
    await far.getByText(/bar \d of 4, cycle/).waitFor();

    // Read at 3 m: letters of the sticking and the numbers stand at least 3 % of the height; nothing sent is MIDI's business.
    const shares = await far.evaluate(() => {
      const view = document.querySelector('evenhand-far-view')?.shadowRoot as ShadowRoot;
      const bar = view.querySelector('evenhand-bar-view')?.shadowRoot as ShadowRoot;
      const texts = [
        ...view.querySelectorAll('h1, p, span, button, select'),
        ...bar.querySelectorAll('.letters > span'),
      ];
      const shown = texts.filter((one) => one.getBoundingClientRect().height > 0);
      return shown.map((one) => parseFloat(getComputedStyle(one).fontSize) / window.innerHeight);
    });
    expect(shares.length).toBeGreaterThan(16);
    expect(Math.min(...shares)).toBeGreaterThanOrEqual(0.03);

    await far.getByRole('button', { name: 'Mark this bar' }).click();
    await far.getByText('1 bar marked').waitFor();
    await far.getByLabel('One number').selectOption('balance');
    await page.getByText(/right less left/).waitFor();
    // Numbers may be left out for the teacher alone.
    expect(await far.locator('.hand').count()).toBe(2);
    await far.getByLabel('numbers', { exact: true }).uncheck();
    await far.locator('.hand').first().waitFor({ state: 'detached' });
    expect(await page.locator('evenhand-play-screen .number').innerText()).not.toBe('');
    await playSome(page, 8);
    await page.getByRole('button', { name: 'Stop' }).click();
    const take = await openTake(page);
    expect(take.events?.map(({ kind }) => kind)).toEqual(expect.arrayContaining(['mark', 'figure']));
    await page.getByText(/The teacher marked bar/).waitFor();

    // Review sends nothing: the far view says so, and goes on with the next take.
    await far.getByText(/Last heard \d s ago/).waitFor({ timeout: 8000 });
    await page.reload();
    await page.getByRole('link', { name: 'Play' }).click();
    await far
      .getByText(/Last heard/)
      .waitFor({ state: 'detached', timeout: 8000 })
      .catch(() => undefined);
    expect(await far.getByText(/Last heard/).count()).toBe(0);
    await page.context().close();
  });
});

describe('what goes wrong in a take', () => {
  it('is said and written down, and every hit is kept', async () => {
    const page = await stage.open();
    await openPlaying(page);
    await playSome(page, 16);
    await page.evaluate((pad) => window.devices[pad].unplug(), PAD);
    await page
      .getByText(/is not connected/)
      .first()
      .waitFor();
    await page.evaluate((pad) => window.devices[pad].plug(), PAD);
    await page.getByText(/is back; strokes count again/).waitFor();
    await strike(page, PAD, 80, 45);
    await page.getByText(/Note 45 on channel 10 is of no surface/).waitFor();
    await page.evaluate(() => {
      for (const hidden of [true, false]) {
        Object.defineProperty(document, 'hidden', { value: hidden, configurable: true });
        document.dispatchEvent(new Event('visibilitychange'));
      }
    });
    await playSome(page, 16);
    await page.getByRole('button', { name: 'Stop' }).click();
    const take = await openTake(page);
    expect(take.hits).toHaveLength(33);
    expect(take.events?.map(({ kind }) => kind)).toEqual([
      'port gone',
      'port back',
      'unknown note',
      'page hidden',
      'page shown',
    ]);
    await page.context().close();
  });

  it('the computer sleeps: the take ends, with every hit it had', async () => {
    const page = await stage.open();
    await openPlaying(page);
    await playSome(page, 16);
    // In sleep the page's clock stands still and the wall's goes on.
    await page.evaluate(() => {
      const now = Date.now.bind(Date);
      Date.now = () => now() + 60_000;
    });
    const take = await openTake(page);
    expect(take.hits).toHaveLength(16);
    expect(take.events?.map(({ kind }) => kind)).toEqual(['slept']);
    await page.getByText(/The computer slept for 60 s/).waitFor();
    await page.context().close();
  });

  it('nothing on Play moves while strokes come, and options hold', async () => {
    const page = await stage.open();
    await page.getByRole('link', { name: 'Play' }).click();
    await page.getByLabel('Hands mirrored').check();
    await page.getByLabel('Early and late').uncheck();
    await page.reload();
    await page.getByRole('link', { name: 'Play' }).click();
    await expect.poll(() => page.getByLabel('Hands mirrored').isChecked()).toBe(true);
    await openPlaying(page);
    // Whatever is on Play, save letters and numbers that say something else: where it stands, frame by frame.
    await page.evaluate(() => {
      const places = new Set<string>();
      Object.assign(window, { places });
      const look = (): void => {
        const play = document.querySelector('evenhand-play-screen')?.shadowRoot as ShadowRoot;
        const bar = play.querySelector('evenhand-bar-view')?.shadowRoot as ShadowRoot;
        const all = [
          ...play.querySelectorAll(
            '.top, .where, .figure, .number, .figure p, evenhand-bar-view, .bottom, .go',
          ),
          ...bar.querySelectorAll('.plot, .height, .under, .rows, .row, .next'),
        ];
        places.add(
          all
            .map((one) => one.getBoundingClientRect())
            .map(({ x, y, width, height }) => [x, y, width, height].map(Math.round).join())
            .join(' '),
        );
        requestAnimationFrame(look);
      };
      look();
    });
    await playSome(page, 48);
    expect(await page.evaluate(() => (window as unknown as { places: Set<string> }).places.size)).toBe(1);
    await page.context().close();
  });
});
