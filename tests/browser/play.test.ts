import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Report } from '../../src/grading/types';
import { gradeTake } from '../../src/take/grade-take';
import type { Take } from '../../src/sessions/types';
import { openStage, setUpOnePad, strike, type Stage } from './page';

declare global {
  interface Window {
    freeFromMs?: number;
  }
}

let stage: Stage;
beforeAll(async () => {
  stage = await openStage(4317);
});
afterAll(() => stage.close());

const PAD = 'Virtual pad';

async function readyToPlay(outputs: readonly string[] = []): Promise<Page> {
  const page = await stage.open({ outputs, path: '#play' });
  await setUpOnePad(page);
  return page;
}

const panel = (page: Page) => page.locator('evenhand-playing-options');
const openPanel = (page: Page) => panel(page).locator('summary').click();

it('the tempo is tapped by the key and on the pad; the plan is kept over a reload', async () => {
  const page = await readyToPlay();
  await openPanel(page);
  const bpm = async (): Promise<number> =>
    Number(await panel(page).getByRole('spinbutton', { name: 'Tempo' }).inputValue());
  // Five presses of T stamped 625 ms apart are 96 bpm; a key pressed by this test would come as unevenly as it can.
  await page.evaluate(() => {
    for (let index = 0; index < 5; index += 1) {
      const press = new KeyboardEvent('keydown', { key: 't', bubbles: true });
      Object.defineProperty(press, 'timeStamp', { value: 1000 + index * 625 });
      document.body.dispatchEvent(press);
    }
  });
  await panel(page).getByText('5 taps').waitFor();
  expect(await bpm()).toBe(96);

  // Five strikes on the pad stamped 750 ms apart are 80 bpm.
  await panel(page).getByLabel('strikes on the pad tap too').check();
  await page.evaluate((pad) => {
    const from = performance.now();
    for (let index = 0; index < 5; index += 1) window.devices[pad].send([0x99, 38, 90], from + index * 750);
  }, PAD);
  await panel(page).getByText('5 taps').waitFor();
  expect(await bpm()).toBe(80);
  await panel(page).getByLabel('strikes on the pad tap too').uncheck();

  await panel(page).getByRole('button', { name: 'beat 1', exact: true }).click();
  await panel(page).getByRole('button', { name: 'beat 3', exact: true }).click();
  await panel(page).getByLabel('Bare bars').first().selectOption('thinning');
  await panel(page).getByLabel('Length').selectOption('open');
  const line = 'until you stop · count-in · click on 2 and 4, 2 bars with it, then 1 bare, growing to 4';
  await panel(page).getByText(line).waitFor();
  await page.waitForTimeout(300);
  await page.reload();
  await panel(page).getByText(line).waitFor();
  await page.close();
});

it('a take ends by Escape and by silence, can be noted, thrown away and put back, and goes again by Space', async () => {
  const page = await readyToPlay();
  await openPanel(page);
  const tempo = panel(page).getByRole('spinbutton', { name: 'Tempo' });
  await tempo.fill('300');
  await tempo.press('Enter');
  await panel(page).getByLabel('Then').selectOption('stay');
  await panel(page).getByLabel('Silence ends it').selectOption('2');
  await panel(page).getByLabel('Length').selectOption('open');
  await page.locator('h1').first().click();

  await page.keyboard.press('Space');
  await page.getByRole('button', { name: 'Stop' }).waitFor();
  await page.waitForTimeout(1500);
  for (let index = 0; index < 12; index += 1) {
    await strike(page, PAD, 60);
    await page.waitForTimeout(60);
  }
  await page.keyboard.press('Escape');
  await page.getByText('Last take, cold:').waitFor();
  await page.getByLabel('Note on this take').fill('left heavy');
  await page.getByLabel('Note on this take').press('Enter');
  await page.getByRole('button', { name: 'Throw away' }).click();
  await page.getByText('Thrown away:').waitFor();
  await page.getByRole('button', { name: 'Put it back' }).click();
  await page.getByRole('button', { name: 'Throw away' }).waitFor();
  expect(await page.getByLabel('Note on this take').inputValue()).toBe('left heavy');

  await page.locator('h1').first().click();
  await page.keyboard.press('Space');
  await page.getByRole('button', { name: 'Stop' }).waitFor();
  await page.waitForTimeout(1300);
  for (let index = 0; index < 6; index += 1) {
    await strike(page, PAD, 60);
    await page.waitForTimeout(80);
  }
  // Two bars of 0.8 s go by in silence.
  await page.getByText('Last take:').waitFor({ timeout: 6000 });
  await page.close();
});

it('in free time the first stroke is the downbeat, the tempo shown is the player’s, and the take has no click', async () => {
  const page = await readyToPlay();
  await openPanel(page);
  await panel(page).getByLabel('Length').selectOption('cycles');
  const cycles = panel(page).getByRole('spinbutton', { name: 'Cycles' });
  await cycles.fill('1');
  await cycles.press('Enter');
  await page.getByLabel('Click').selectOption({ label: 'None: free time' });
  await panel(page).getByText('1 cycle · free time, no click').waitFor();
  expect(await panel(page).getByText('Click on').count()).toBe(0);
  await page.locator('h1').first().click();
  await page.keyboard.press('Space');
  await page.getByText('Your first stroke is the downbeat.').waitFor();
  await page.waitForTimeout(600);
  // Sixty-four sixteenths at 150 bpm, stamped evenly; 84 bpm stands on the desk.
  const told: string[] = [];
  for (let from = 0; from < 64; from += 4) {
    await page.evaluate(
      ([pad, first]) => {
        window.freeFromMs ??= performance.now();
        for (let index = first; index < first + 4; index += 1) {
          const velocity = index % 4 === Math.floor(index / 16) ? 110 : 38;
          window.devices[pad].send([0x99, 38, velocity], (window.freeFromMs ?? 0) + index * 100);
        }
      },
      [PAD, from] as const,
    );
    await page.waitForTimeout(395);
    if (from === 32) told.push(await page.locator('evenhand-play-screen .tempo').innerText());
  }
  expect(told).toEqual(['150 bpm, as at first']);
  // It is over a beat after its last bar by the player’s own time.
  await page.locator('evenhand-review-screen article').waitFor({ timeout: 10_000 });
  await page.getByText(/150\.0 bpm on average/).waitFor();
  const { take, report } = await page.evaluate(() => {
    const screen = document.querySelector('evenhand-review-screen') as unknown as {
      take: Take;
      report: Report;
    };
    return { take: screen.take, report: screen.report };
  });
  expect([take.click, take.downbeatMs, take.tempo, take.hits.length]).toEqual([
    'none',
    null,
    { bpm: 150 },
    64,
  ]);
  expect(report.counts.matched).toBe(64);
  expect(JSON.stringify(report)).toBe(JSON.stringify(gradeTake(take)));
  await page.close();
});

it('the click on a MIDI output leaves bare bars out, and the beat line with it', async () => {
  const page = await readyToPlay(['Module']);
  await openPanel(page);
  const tempo = panel(page).getByRole('spinbutton', { name: 'Tempo' });
  await tempo.fill('300');
  await tempo.press('Enter');
  await panel(page).getByLabel('Silence ends it').selectOption('never');
  await panel(page).getByLabel('Bare bars').first().selectOption('steady');
  await page
    .locator('evenhand-play-screen .choices select')
    .nth(1)
    .selectOption({ label: 'A note on Module' });
  await page.getByRole('button', { name: 'Start' }).click();
  // Count-in of 4, 2 bars with it, 2 bare, 2 with it: 0.8 s a bar.
  await page.waitForTimeout(400 + 9 * 800);
  const sent = await page.evaluate(() =>
    window.devices['Module'].sent
      .filter(({ bytes }) => bytes[0] === 0x99 && bytes[2] > 0)
      .map(({ timestamp }) => timestamp),
  );
  await page.keyboard.press('Escape');
  const gaps = sent.slice(1, 16).map((atMs, index) => Math.round((atMs - sent[index]) / 200));
  // In beats: eleven of one, then over the two bare bars nine.
  expect(gaps).toEqual([...Array.from({ length: 11 }, () => 1), 9, 1, 1, 1]);
  await page.close();
});

/** Says of each sound handed to the audio system at which performance time it will be heard, by a reading of both clocks. */
const LISTEN = `window.heardAt = [];
  const begin = AudioBufferSourceNode.prototype.start;
  AudioBufferSourceNode.prototype.start = function (at) {
    const { contextTime, performanceTime } = this.context.getOutputTimestamp();
    window.heardAt.push(performanceTime + (at - contextTime) * 1000);
    return begin.call(this, at);
  };`;

it('the click in Web Audio is heard every 625 ms at 96 bpm: within 1 ms of the grid on the middle of readings', async () => {
  const page = await stage.open({ path: '#play', before: LISTEN });
  await setUpOnePad(page);
  await openPanel(page);
  const tempo = panel(page).getByRole('spinbutton', { name: 'Tempo' });
  await tempo.fill('96');
  await tempo.press('Enter');
  await panel(page).getByLabel('Silence ends it').selectOption('never');
  await page.getByRole('button', { name: 'Start' }).click();
  await page.waitForTimeout(20_000);
  await page.keyboard.press('Escape');
  const heardAt = await page.evaluate(() => (window as unknown as { heardAt: number[] }).heardAt);
  expect(heardAt.length).toBeGreaterThan(25);
  // Against the grid that lies best among them; single readings of the clocks jitter, so their median says.
  const first = middle(heardAt.map((atMs, index) => atMs - index * 625));
  const errors = heardAt.map((atMs, index) => Math.abs(atMs - first - index * 625));
  const late =
    middle(heardAt.slice(-8).map((atMs, index) => atMs - (heardAt.length - 8 + index) * 625)) - first;
  process.stdout.write(
    `click in Chromium: median error ${middle(errors).toFixed(3)} ms, drift ${late.toFixed(3)} ms in 20 s\n`,
  );
  expect(middle(errors)).toBeLessThan(1);
  expect(Math.abs(late)).toBeLessThan(1);
  await page.close();
});

it('rendered offline, a click’s first sample lies within one sample of its time', async () => {
  const page = await stage.open();
  // 48 kHz, 96 bpm: click n is due at n · 30,000 samples (arithmetic). Rendered for 20 s.
  const onsets = await page.evaluate(async () => {
    const audio = new OfflineAudioContext(1, 48_000 * 20, 48_000);
    const buffer = audio.createBuffer(1, 64, 48_000);
    buffer.getChannelData(0).fill(1);
    for (let click = 0; click < 32; click += 1) {
      const source = audio.createBufferSource();
      source.buffer = buffer;
      source.connect(audio.destination);
      source.start(click * 0.625);
    }
    const samples = (await audio.startRendering()).getChannelData(0);
    const found: number[] = [];
    for (let at = 0; at < samples.length; at += 1) {
      if (samples[at] > 0.01 && (at === 0 || samples[at - 1] <= 0.01)) found.push(at);
    }
    return found;
  });
  expect(onsets).toHaveLength(32);
  expect(onsets.every((at, click) => Math.abs(at - click * 30_000) <= 1)).toBe(true);
  await page.close();
});

const middle = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)];

describe('without sound', () => {
  it('Play says before the take that the click can’t be heard, and what to do; the take is played all the same', async () => {
    const page = await stage.open({
      path: '#today',
      before: `window.AudioContext = class { constructor() { throw new DOMException('none', 'NotSupportedError'); } };`,
    });
    await page.getByRole('link', { name: 'Play', exact: true }).click();
    await page
      .getByText('The click can’t be heard: no sound device. Watch the beat line, or send it to the kit.')
      .waitFor();
    await page.getByLabel('Input').selectOption('take:left-up-stroke-leaks');
    await page.getByRole('button', { name: 'Start', exact: true }).click();
    await page.waitForTimeout(6000);
    await page.getByRole('button', { name: 'Stop', exact: true }).click();
    await page.locator('evenhand-review-screen article').waitFor();
    await page.context().close();
  });

  it('of a browser that never lets it sound too', async () => {
    const page = await stage.open({
      path: '#today',
      before: `AudioContext.prototype.resume = () => new Promise(() => undefined);
        Object.defineProperty(AudioContext.prototype, 'state', { get: () => 'suspended' });`,
    });
    await page.getByRole('link', { name: 'Play', exact: true }).click();
    await page.getByText('The click can’t be heard: the browser holds sound back.').waitFor();
    await page.context().close();
  });
});
