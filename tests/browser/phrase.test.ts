import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Phrase } from '../../src/exercises/types';
import { openStage, setUpOnePad, type Stage } from './page';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage(4317);
});
afterAll(() => stage.close());

const phraseOf = (page: Page): Promise<Phrase> =>
  page.evaluate(() => {
    const screen = document.querySelector('evenhand-phrase-screen') as unknown as { phrase: Phrase };
    return screen.phrase;
  });

/** Presses Tab until what has the focus is called so. */
async function tabTo(page: Page, name: RegExp): Promise<void> {
  const seen: string[] = [];
  for (let press = 0; press < 60; press += 1) {
    const label = await page.evaluate(() => {
      let at = document.activeElement;
      while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
      const labels = at instanceof HTMLInputElement || at instanceof HTMLSelectElement ? at.labels : null;
      return [at?.getAttribute('aria-label'), labels?.[0]?.innerText, (at as HTMLElement | null)?.innerText]
        .filter(Boolean)
        .join(' ');
    });
    if (name.test(label)) return;
    seen.push(label.slice(0, 30));
    await page.keyboard.press('Tab');
  }
  throw new Error(`nothing called ${name} by Tab: ${seen.join(' | ')}`);
}

/** Types until the list that has the focus stands on what begins so. */
async function pick(page: Page, words: string): Promise<void> {
  await page.keyboard.type(words);
  await page.keyboard.press('Enter');
}

describe('a phrase is built by keyboard alone', () => {
  it('with a voicing, feet that were mistyped first, swing and call and response, and heard', async () => {
    const page = await stage.open({ outputs: ['Virtual kit'] });
    await page.getByRole('button', { name: 'Play this' }).waitFor();

    await tabTo(page, /^Played/);
    await page.keyboard.press('Enter');
    await tabTo(page, /^On\b/);
    await pick(page, 'accents to toms');
    await tabTo(page, /^Over feet/);
    await pick(page, 'hi-hat on 2');
    expect((await phraseOf(page)).feet).toBe('---- H---');

    await tabTo(page, /^Feet line/);
    await page.keyboard.press('Control+A');
    await page.keyboard.type('K---Hx');
    await page.getByText('line 1, column 6 must be K').waitFor();
    expect((await phraseOf(page)).feet).toBe('K---H');
    await page.keyboard.press('Backspace');
    await page.keyboard.type('---');
    await page.getByText('line 1, column 6').waitFor({ state: 'detached' });

    await tabTo(page, /^Swing/);
    await page.keyboard.press('Shift+ArrowUp');
    await tabTo(page, /^Before each bar/);
    await pick(page, 'listen');

    const phrase = await phraseOf(page);
    expect(phrase).toMatchObject({ feet: 'K---H---', swing: 0.6, voicing: { accentsL: 'high tom' } });
    expect(phrase.bars.map(({ role }) => role ?? 'play')).toEqual([
      ...['listen', 'play', 'listen', 'play', 'listen', 'play', 'listen', 'play'],
    ]);
    await page.getByText('accents to toms · feet K---H--- · swing 60 % · each bar heard first').waitFor();

    await tabTo(page, /^Hear it/);
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Stop' }).waitFor();
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Hear it' }).waitFor();
    await page.context().close();
  });
});

describe('call and response', () => {
  it('sounds the bar on the kit, says to listen, and then the same bar is due', async () => {
    const page = await stage.open({ outputs: ['Virtual kit'] });
    await page.getByText('Played').first().click();
    await page.getByLabel('Before each bar').selectOption('listen');
    await page.getByRole('spinbutton', { name: 'Tempo' }).fill('200');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Play this' }).click();
    await setUpOnePad(page);
    await page.getByLabel('Click').selectOption({ label: 'A note on Virtual kit' });
    await page.getByRole('button', { name: 'Start' }).click();
    await page.getByText('it sounds; play nothing').waitFor({ timeout: 10_000 });
    await page.getByText('next: play accent on 1').waitFor();
    await page.getByText('it sounds; play nothing').waitFor({ state: 'detached', timeout: 10_000 });
    const sent = await page.evaluate(() =>
      window.devices['Virtual kit'].sent
        .filter(({ bytes }) => (bytes[0] & 0xf0) === 0x90)
        .map(({ bytes, timestamp }) => [bytes[1], timestamp]),
    );
    // The first bar, called: sixteen strokes on the snare (38), 75 ms apart at 200 bpm; the click is a side stick (37).
    const strokes = sent.filter(([note]) => note === 38).slice(0, 16);
    expect(strokes).toHaveLength(16);
    for (let at = 1; at < 16; at += 1) expect(strokes[at][1] - strokes[at - 1][1]).toBeCloseTo(75, 3);
    const clicks = sent.filter(([note]) => note === 37).map(([, atMs]) => atMs);
    expect(clicks.some((atMs) => Math.abs(atMs - strokes[0][1]) < 0.001)).toBe(true);
    await page.keyboard.press('Space');
    await page.context().close();
  });
});

describe('a phrase that can’t be engraved', () => {
  it('says why, shows its sticking instead, is heard and played', async () => {
    const page = await stage.open();
    // An engraver that fails, as it does where its file can't be had.
    await page.route(/\/engraver-[^/]*\.js/, (route) =>
      route.fulfill({ contentType: 'text/javascript', body: 'throw new Error("out of ink");' }),
    );
    await page.getByRole('radio', { name: 'notation' }).check();
    await page.getByText('No notation: the engraver gave up (out of ink)').waitFor();
    await page.getByRole('list', { name: 'Bars of a cycle' }).waitFor();
    await page.getByRole('button', { name: 'Hear it' }).click();
    await page.getByRole('button', { name: 'Stop' }).click();
    await page.getByRole('button', { name: 'Play this' }).click();
    await setUpOnePad(page);
    await page.getByRole('button', { name: 'Start' }).click();
    await page.getByText('bar 1 of 4, cycle 1 of 8').waitFor();
    await page.context().close();
  });
});
