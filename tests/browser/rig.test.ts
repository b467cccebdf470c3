import AxeBuilder from '@axe-core/playwright';
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Report } from '../../src/grading/types';
import { openStage, strike, type Stage } from './page';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage(4305);
});
afterAll(() => stage.close());

const RIGHT = 'Right pad';
const LEFT = 'Left pad';
const says = (page: Page): Promise<string> => page.locator('evenhand-rig-screen h1').innerText();

/** Strikes of one note on a pad, one by one. */
async function strikes(page: Page, pad: string, velocities: readonly number[], gapMs: number): Promise<void> {
  for (const velocity of velocities) {
    await strike(page, pad, velocity);
    await page.waitForTimeout(gapMs);
  }
}

const eight = (velocity: number): number[] => Array.from({ length: 8 }, (_, i) => velocity + (i % 3));

/** Low, half and full, as asked: a pause between them. */
async function heights(page: Page, pad: string): Promise<void> {
  for (const velocity of [24, 58, 112]) {
    await strikes(page, pad, eight(velocity), 170);
    await page.waitForTimeout(1000);
  }
}

/** Plays single paradiddles on both pads from the running take's downbeat on: R on the one, L on the other. */
async function playBars(page: Page, bars: number, bpm: number): Promise<void> {
  await page.evaluate(
    async ([right, left, count, tempo]) => {
      const play = document.querySelector('evenhand-play-screen') as unknown as { running: boolean };
      while (!play.running) await new Promise((done) => setTimeout(done, 5));
      const click = window.devices['Module'];
      while (click.sent.length < 1) await new Promise((done) => setTimeout(done, 5));
      const beatMs = 60_000 / tempo;
      const downbeat = click.sent[0].timestamp + 4 * beatMs;
      const hands = 'RLRRLRLLRLRRLRLL';
      for (let index = 0; index < 16 * count; index += 1) {
        const at = downbeat + (index * beatMs) / 4;
        while (performance.now() < at) await new Promise((done) => setTimeout(done, 1));
        const isAccent = index % 4 === Math.floor(index / 16) % 4;
        const pad = window.devices[hands[index % 16] === 'R' ? right : left];
        pad.send([0x99, 38, isAccent ? 112 : 24], at);
        pad.send([0x99, 38, 0], at + 2);
      }
    },
    [RIGHT, LEFT, bars, bpm] as const,
  );
}

/** Goes to a button by Tab alone, and presses it. */
async function press(page: Page, name: string): Promise<void> {
  const onIt = (): Promise<boolean> =>
    page.evaluate((words) => {
      let active = document.activeElement;
      while (active?.shadowRoot?.activeElement) active = active.shadowRoot.activeElement;
      return active?.textContent?.trim() === words;
    }, name);
  for (let step = 0; step < 80 && !(await onIt()); step += 1) await page.keyboard.press('Tab');
  expect(await onIt()).toBe(true);
  await page.keyboard.press('Enter');
}

const topOf = (page: Page, element: string): Promise<number> =>
  page.locator(element).evaluate((one) => one.getBoundingClientRect().top + scrollY);

/** Tables of the Rig screen that are wider than the room they have, by the heading they stand under. */
const cutOff = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => {
    const parts = document.querySelector('evenhand-rig-screen')?.shadowRoot?.querySelectorAll('*') ?? [];
    return [...parts].flatMap((part) => {
      const table = part.shadowRoot?.querySelector('table');
      const room = table?.parentElement?.clientWidth ?? 0;
      return table && table.scrollWidth > room ? [part.localName] : [];
    });
  });

describe('from empty storage to a graded take, without a pointer', () => {
  it('the ports, the surfaces, the hands, the heights, the start surface and the take, by strikes; keys for MIDI and the click', async () => {
    const page = await stage.open({
      inputs: [RIGHT, LEFT],
      outputs: ['Module'],
      path: '#rig',
      before: `window.pointed = 0;
        for (const kind of ['pointerdown', 'mousedown', 'touchstart'])
          addEventListener(kind, () => (window.pointed += 1), true);`,
    });
    await page.locator('evenhand-rig-screen h1').waitFor();
    // The browser's permission is the one thing that no strike can ask for.
    await press(page, 'Connect MIDI');
    await expect.poll(() => says(page)).toBe('Strike the first thing you play.');
    const beganMs = performance.now();

    await strike(page, RIGHT, 90);
    await page.waitForTimeout(400);
    await strike(page, LEFT, 90);
    await expect.poll(() => says(page)).toBe('That is Snare 2. Strike the next.');
    await expect.poll(() => says(page), { timeout: 6000 }).toBe('Strike once where your right hand plays.');
    await strike(page, RIGHT, 90);
    await expect.poll(() => says(page)).toBe('Now once where your left hand plays.');
    await page.waitForTimeout(200);
    await strike(page, LEFT, 90);
    await expect.poll(() => says(page)).toBe('Low strokes, right hand, on Snare');
    await page.waitForTimeout(1000);
    const portsAt = await topOf(page, 'evenhand-rig-ports');
    await heights(page, RIGHT);
    // From step to step nothing under the words moves.
    expect(await topOf(page, 'evenhand-rig-ports')).toBe(portsAt);
    await heights(page, LEFT);
    await expect.poll(() => says(page)).toBe('Right pad is ready.');
    await page.setViewportSize({ width: 400, height: 900 });
    expect(await cutOff(page)).toEqual([]);
    await page.setViewportSize({ width: 1280, height: 900 });
    expect(
      (await new AxeBuilder({ page }).analyze()).violations.map(({ id, nodes }) => [id, nodes[0].html]),
    ).toEqual([]);

    // The click goes to the kit's own output.
    await press(page, 'Use it');
    await strikes(page, LEFT, [90, 90, 90], 250);
    await page.locator('evenhand-play-screen').waitFor({ timeout: 5000 });
    await page.waitForTimeout(300);
    // Waiting: one strike on the start surface begins the take.
    await strike(page, LEFT, 90);
    await playBars(page, 8, 84);
    expect(await page.locator('evenhand-play-screen .figure p').last().innerText()).toMatch(
      /^accents at full, soft strokes at low · dB, contrast · aim full and low/,
    );
    // Four bars of silence end it.
    await page.locator('evenhand-review-screen').waitFor({ timeout: 20_000 });
    const report = await page.evaluate(
      () => (document.querySelector('evenhand-review-screen') as unknown as { report: Report }).report,
    );
    const playedMs = performance.now() - beganMs;
    expect(report.counts.matched).toBeGreaterThanOrEqual(120);
    expect(report.counts.extra).toBe(0);
    expect(report.hands).toBe('known');
    expect(report.heights?.low).toBeCloseTo(-28.2, 0);
    expect(playedMs).toBeLessThan(120_000);
    expect(await page.evaluate(() => (window as unknown as { pointed: number }).pointed)).toBe(0);

    // After a stop two strikes on the start surface are: slower, by about 5 %.
    await page.waitForTimeout(800);
    await strikes(page, LEFT, [90, 90], 250);
    await page
      .locator('evenhand-play-screen')
      .getByRole('button', { name: 'Stop' })
      .waitFor({ timeout: 5000 });
    expect(await page.locator('evenhand-app header .line').innerText()).toContain('80 bpm');
    await page.context().close();
  }, 180_000);
});

describe('the kit unplugged and plugged in again', () => {
  it('at every step: the step goes on, the rig is as it was, also after the page is opened anew', async () => {
    const page = await stage.open({ inputs: [RIGHT, LEFT], path: '#rig' });
    const replug = async (pad: string): Promise<void> => {
      await page.evaluate(async (name) => {
        window.devices[name].unplug();
        await new Promise((done) => setTimeout(done, 60));
        window.devices[name].plug();
      }, pad);
      await page.waitForTimeout(100);
    };
    await page.getByRole('button', { name: 'Connect MIDI' }).click();
    await replug(RIGHT);
    await strike(page, RIGHT, 90);
    await replug(RIGHT);
    await strike(page, LEFT, 90);
    await expect.poll(() => says(page), { timeout: 6000 }).toBe('Strike once where your right hand plays.');
    await replug(LEFT);
    await strike(page, RIGHT, 90);
    await replug(RIGHT);
    await page.waitForTimeout(200);
    await strike(page, LEFT, 90);
    await expect.poll(() => says(page)).toBe('Low strokes, right hand, on Snare');
    await page.waitForTimeout(1000);
    await strikes(page, RIGHT, [24, 25, 24], 170);
    await replug(RIGHT);
    await strikes(page, RIGHT, [24, 25, 24, 25], 170);
    await expect.poll(() => page.locator('evenhand-rig-screen .number').innerText()).toBe('1');
    await page.keyboard.press('s');
    await expect.poll(() => says(page)).toBe('Low strokes, left hand, on Snare 2');
    const context = page.context();
    await page.waitForTimeout(300);
    await page.close();

    const again = await stage.open({ inputs: [RIGHT, LEFT], context, path: '#rig' });
    await expect.poll(() => again.getByLabel('Who plays Snare 2').inputValue()).toBe('L');
    await again.getByLabel('Name of the rig in use').waitFor();
    await context.close();
  }, 60_000);
});

describe('the monitor', () => {
  it('counts a flood of a thousand controllers a second, active sensing and chokes, and loses no stroke', async () => {
    const page = await stage.open({ inputs: [RIGHT], path: '#rig' });
    await page.getByRole('button', { name: 'Connect MIDI' }).click();
    await strike(page, RIGHT, 90);
    await page.evaluate(async (name) => {
      const pad = window.devices[name];
      for (let burst = 0; burst < 50; burst += 1) {
        for (let message = 0; message < 20; message += 1) pad.send([0xb9, 4, message]);
        pad.send([0xfe]);
        pad.send([0xa9, 49, 127]);
        await new Promise((done) => setTimeout(done, 20));
      }
      pad.send([0x99, 38, 88]);
    }, RIGHT);
    await page.locator('evenhand-rig-monitor summary').click();
    await expect
      .poll(() => page.locator('evenhand-rig-monitor p').first().innerText())
      .toMatch(
        /^2 note-ons since this page opened\..*1000 controllers.*50 clock and active sensing.*50 aftertouch/,
      );
    await page.context().close();
  }, 30_000);
});

describe('the one number on Play', () => {
  it.each([1280, 820, 400])('moves nothing at %i px, whatever its words say', async (width) => {
    const page = await stage.open({ inputs: [], path: '#play' });
    await page.locator('evenhand-play-screen').waitFor();
    await page.setViewportSize({ width, height: 900 });
    const tops = await page.evaluate(async () => {
      const play = document.querySelector('evenhand-play-screen') as HTMLElement & {
        figure: unknown;
        updateComplete: Promise<unknown>;
      };
      const said = [
        '',
        'accents at full, soft strokes at low',
        'accents between half and full, soft strokes between low and half',
      ];
      const found: number[] = [];
      for (const heights of said) {
        play.figure = {
          value: 12.4,
          unit: 'dB',
          heights,
          words: 'contrast',
          aim: 'aim full and low, 14 dB apart or more',
        };
        await play.updateComplete;
        found.push(play.shadowRoot?.querySelector('evenhand-bar-view')?.getBoundingClientRect().top ?? -1);
      }
      return found;
    });
    expect(tops[0]).toBeGreaterThan(0);
    expect(new Set(tops).size).toBe(1);
    await page.context().close();
  });
});
