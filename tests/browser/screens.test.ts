import AxeBuilder from '@axe-core/playwright';
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Report } from '../../src/grading/types';
import { openStage, setUpOnePad, type Stage } from './page';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage(4302);
});
afterAll(() => stage.close());

const sentence = (page: Page): Promise<string> => page.locator('evenhand-review-screen h1').innerText();

/** Drops a file on the page, as from a folder. */
async function drop(page: Page, name: string, text: string): Promise<void> {
  const data = await page.evaluateHandle(
    ([fileName, content]) => {
      const transfer = new DataTransfer();
      transfer.items.add(new File([content], fileName, { type: 'application/json' }));
      return transfer;
    },
    [name, text] as const,
  );
  await page.dispatchEvent('evenhand-app', 'drop', { dataTransfer: data });
}

describe('with no MIDI', () => {
  it('says that permission was refused and what to do, and the bundled takes still play and are reviewed', async () => {
    // Headless Chromium refuses by itself: nothing is faked here.
    const page = await stage.open({ inputs: null });
    await page.getByRole('button', { name: 'Play this' }).click();
    await page.getByRole('button', { name: /MIDI/ }).click();
    await page.getByText('MIDI was not allowed on this page').waitFor();
    await page.getByLabel('Input').selectOption('take:steady');
    await page.getByRole('button', { name: 'Start' }).click();
    await page.waitForFunction(
      () => {
        const play = document.querySelector('evenhand-play-screen') as unknown as {
          live: { strokes: number } | null;
        };
        return (play.live?.strokes ?? 0) > 20;
      },
      undefined,
      { timeout: 20_000 },
    );
    await page.keyboard.press('Space');
    await page.waitForSelector('evenhand-review-screen');
    const report = await page.evaluate(
      () => (document.querySelector('evenhand-review-screen') as unknown as { report: Report }).report,
    );
    expect(report.counts.matched).toBeGreaterThan(15);
    expect(report.counts.extra).toBe(0);
    await page.context().close();
  });

  it.each([
    ['unsupported', 'no MIDI'],
    ['denied', 'not allowed'],
    ['no-driver', 'hold the port'],
  ] as const)('%s: says which and what to do', async (mode, words) => {
    const page = await stage.open({ before: `window.fakeMidi.setMode('${mode}')` });
    await page.getByRole('button', { name: 'Play this' }).click();
    await page.getByRole('button', { name: /MIDI/ }).click();
    const says = page.locator('evenhand-play-screen .step');
    await expect.poll(() => says.innerText()).toMatch(new RegExp(words, 'i'));
    expect(await says.innerText()).toContain('undled take');
    await page.context().close();
  });

  it('says so where there is no port', async () => {
    const page = await stage.open({ inputs: [] });
    await page.getByRole('button', { name: 'Play this' }).click();
    await page.getByRole('button', { name: /MIDI/ }).click();
    await expect
      .poll(() => page.locator('evenhand-play-screen .step').innerText())
      .toMatch(/no (input|port|kit|pad)/i);
    await page.context().close();
  });
});

describe('files', () => {
  it('a take dropped on the page opens in Review with the sentence of its golden report', async () => {
    const page = await stage.open();
    const name = 'recorded-sessions/stick-not-stopped';
    const golden = JSON.parse(readFileSync(`${name}.report.json`, 'utf8')) as Report;
    await drop(page, 'from-a-student.take.json', readFileSync(`${name}.take.json`, 'utf8'));
    await page.waitForSelector('evenhand-review-screen');
    await expect.poll(() => sentence(page)).toBe(golden.sentence);
    await page.context().close();
  });

  it('a bad one is refused with its place, rule and value, and nothing is lost', async () => {
    const page = await stage.open();
    const text = readFileSync('recorded-sessions/steady.take.json', 'utf8');
    await drop(page, 'good.take.json', text);
    await page.waitForSelector('evenhand-review-screen');
    const before = await sentence(page);
    await drop(page, 'cut.take.json', text.slice(0, 2000));
    await page.getByText(/cut\.take\.json: line \d+, column \d+ must be JSON/).waitFor();
    await drop(page, 'wrong.take.json', text.replace(/"velocity":\d+/, '"velocity":128'));
    await page
      .getByText('wrong.take.json: hits[0].velocity must be an integer 1–127, got 128')
      .first()
      .waitFor();
    expect(await sentence(page)).toBe(before);
    await page.context().close();
  });
});

describe('by keyboard alone', () => {
  it('types a phrase, gets an error at the character, mends it, and goes to play', async () => {
    const page = await stage.open();
    const field = page.getByLabel(/Its sticking, a bar a line/);
    await field.focus();
    await page.keyboard.press('Control+A');
    await page.keyboard.type('RlrrLrllRlrrLrlx');
    await page.getByText('line 1, column 16 must be').waitFor();
    await page.keyboard.press('Backspace');
    await page.keyboard.type('l');
    await expect.poll(() => page.locator('evenhand-phrase-screen h1').innerText()).toBe('Rlrr Lrll');
    const play = page.getByRole('button', { name: 'Play this' });
    await play.focus();
    await page.keyboard.press('Enter');
    await page.waitForSelector('evenhand-play-screen');
    await page.context().close();
  });

  it('builds a phrase: a rudiment, varied by its rotations, both leads, kept under a name', async () => {
    const page = await stage.open();
    const choose = async (label: string, option: string): Promise<void> => {
      await page.getByRole('combobox', { name: label, exact: true }).focus();
      await page.getByRole('combobox', { name: label, exact: true }).selectOption(option);
    };
    await choose('Phrase or rudiment', 'Double paradiddle');
    await choose('Varied by', 'accent walk');
    await choose('Lead', 'both, a cycle each');
    const bars = page.locator('evenhand-phrase-screen ol > li');
    await expect.poll(() => bars.count()).toBeGreaterThan(4);
    await page.getByLabel('Keep this phrase as').focus();
    await page.keyboard.type('For Tuesday');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'For Tuesday', exact: true }).waitFor();
    const context = page.context();
    await page.close();
    const again = await stage.open({ context });
    await again.getByRole('button', { name: 'For Tuesday', exact: true }).focus();
    await again.keyboard.press('Enter');
    await expect.poll(() => again.locator('evenhand-phrase-screen h1').innerText()).toBe('For Tuesday');
    await context.close();
  });

  it('shows notation and a sheet when asked, and loads the engraver only then, from its own files alone', async () => {
    const page = await stage.open();
    const asked: string[] = [];
    page.on('request', (request) => asked.push(request.url()));
    await page.getByRole('button', { name: 'Play this' }).click();
    await page.waitForSelector('evenhand-play-screen');
    expect(asked.filter((url) => url.includes('engraver'))).toEqual([]);
    await page.getByRole('link', { name: 'Phrase' }).click();
    await page.getByLabel('notation').check();
    await page.waitForFunction(() => {
      const screen = document.querySelector('evenhand-phrase-screen')?.shadowRoot;
      const notation = screen?.querySelector('evenhand-notation');
      return (notation?.shadowRoot?.querySelectorAll('svg').length ?? 0) > 0;
    });
    expect(asked.some((url) => url.includes('engraver'))).toBe(true);
    expect(asked.filter((url) => !url.startsWith('http://127.0.0.1') && !url.startsWith('data:'))).toEqual(
      [],
    );
    await page.getByRole('button', { name: 'Print a sheet' }).click();
    await page.getByText('From your teacher').waitFor();
    await page.context().close();
  });

  it('sounds the phrase, and stops', async () => {
    const page = await stage.open({ outputs: ['Module'] });
    await page.getByRole('button', { name: 'Hear it' }).click();
    const stop = page.locator('evenhand-phrase-tools').getByRole('button', { name: 'Stop' });
    await stop.click();
    await page.getByRole('button', { name: 'Hear it' }).waitFor();
    await page.context().close();
  });

  it('refuses tempo 0 with its rule, and keeps the tempo it had', async () => {
    const page = await stage.open();
    await page.getByRole('spinbutton', { name: 'Tempo' }).fill('0');
    await page.keyboard.press('Enter');
    await page.getByText('must be a tempo from 20 to 400 bpm').waitFor();
    await page.getByText('84 bpm').first().waitFor();
    await page.context().close();
  });
});

it('Back goes to the screen before, a reload stays where it was', async () => {
  const page = await stage.open({ inputs: null });
  const screen = (name: string) => page.locator('nav a[aria-current]', { hasText: name }).waitFor();
  await page.getByRole('link', { name: 'Phrase' }).click();
  await screen('Phrase');
  await page.getByRole('link', { name: 'Library' }).click();
  await screen('Library');
  await page.goBack();
  await screen('Phrase');
  await page.goForward();
  await screen('Library');
  await page.reload();
  await screen('Library');
  await page.close();
});

describe('everyone can read it', () => {
  it.each([
    ['light', 1280],
    ['dark', 820],
  ] as const)('no screen has what the checker finds wrong (%s, %d wide)', async (colorScheme, width) => {
    const page = await stage.open({ contextOptions: { colorScheme, viewport: { width, height: 900 } } });
    const wrong = async (): Promise<string[]> => {
      const { violations } = await new AxeBuilder({ page }).analyze();
      return violations.map(
        ({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(' ')).join(', ')}`,
      );
    };
    expect(await wrong()).toEqual([]);
    await page.getByRole('button', { name: 'Play this' }).click();
    await setUpOnePad(page);
    expect(await wrong()).toEqual([]);
    await page.getByRole('link', { name: 'Takes' }).click();
    await page.getByText(/^Bundled takes, by the model player: /).click();
    expect(await wrong()).toEqual([]);
    await page
      .getByRole('button', { name: /left up stroke/i })
      .first()
      .click();
    await page.locator('evenhand-review-screen article').waitFor();
    await page.waitForTimeout(500);
    expect(await wrong()).toEqual([]);
    const sideways = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    expect(sideways).toBeLessThanOrEqual(0);
    await page.context().close();
  });
});

/** Name and text of what has the focus, through every shadow root. */
const focused = (page: Page): Promise<string> =>
  page.evaluate(() => {
    let at = document.activeElement;
    for (let inner = at; inner; inner = inner.shadowRoot?.activeElement ?? null) at = inner;
    return `${at?.localName ?? ''}: ${at?.textContent?.trim() ?? ''}`;
  });

// WCAG 2.2: 2.4.1 (skip link), 2.4.2 (titles), 2.4.3 (order of focus), 2.1.4 (single letters).
it('a screen has its title, its heading takes the focus where no link led there, and the links can be skipped', async () => {
  const page = await stage.open({ path: '#today' });
  await page.getByRole('heading', { name: 'Today', exact: true }).waitFor();
  expect(await page.title()).toBe('Today – Evenhand');
  await page.keyboard.press('Tab');
  expect(await focused(page)).toBe('button: Skip the links');
  await page.keyboard.press('Enter');
  await expect.poll(() => focused(page)).toBe('h1: Today');

  await page.getByRole('button', { name: 'Play the first phrase' }).press('Enter');
  await expect.poll(() => focused(page)).toBe('h1: Accent on 1');
  expect(await page.title()).toBe('Play – Evenhand');
  await page.getByRole('link', { name: 'Rig' }).press('Enter');
  await page.waitForSelector('evenhand-rig-screen');
  expect(await focused(page)).toBe('a: Rig');

  // T taps only while the line is open that says so.
  await page.getByRole('link', { name: 'Play', exact: true }).click();
  const taps = page.locator('evenhand-playing-options');
  await taps.waitFor();
  await page.keyboard.press('t');
  await taps.locator('summary').click();
  expect(await taps.getByText('1 tap').count()).toBe(0);
  await page.keyboard.press('t');
  await taps.getByText('1 tap: go on.').waitFor();
  await page.context().close();
});
