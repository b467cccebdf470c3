import { readFileSync } from 'node:fs';
import type { Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { condition } from '../../src/midi/conditioning';
import { reportedBy, type ModelKit, type Struck } from '../model-kit';
import { normal, seeded } from '../../src/model/random';
import type { Rigging } from '../../src/state/rig/state';
import type { Rig } from '../../src/sessions/types';
import { settingsOf } from '../../src/settings';
import { velocityOfLevel } from '../../src/units';
import type { Hand, RawHit } from '../../src/stroke';
import { struckAsAsked } from '../midi/learning/strikes';
import { openStage, type Stage } from './page';

// A kit whose faults are known is taught to the page through the real MIDI library, by strikes alone wherever strikes can do
// it, and unplugged and plugged in again in the middle of every step. Tolerances, our own: 0.5 dB, 1 ms, 99 %.

let stage: Stage;
beforeAll(async () => {
  stage = await openStage(4313);
});
afterAll(() => stage.close());

const PADS = ['Right pad', 'Left pad'] as const;
const NOTES = [38, 48] as const;

/** Both pads send note 38, each on its port; the model tells them apart by a note of their own. */
const kit: ModelKit = {
  pads: [
    {
      id: 'R',
      note: NOTES[0],
      mergesMs: 20,
      thresholdVelocity: 6,
      forerunner: { share: 0.3, afterMs: -9, spreadMs: 1, ratio: 0.25 },
    },
    { id: 'L', note: NOTES[1], gainDb: 2.4, echo: { share: 0.4, afterMs: 60, spreadMs: 8, ratio: 0.25 } },
  ],
  crosstalk: [{ from: 'L', to: 'R', share: 0.5, afterMs: 3, spreadMs: 1, ratio: 0.2 }],
  inputDelayMs: 18,
};
/** The same pads with nothing added: what is learned of levels is learned of strokes. */
const quietKit: ModelKit = {
  ...kit,
  pads: kit.pads.map(({ id, note, gainDb = 0, mergesMs = 0, thresholdVelocity = 1 }) => ({
    id,
    note,
    gainDb,
    mergesMs,
    thresholdVelocity,
  })),
  crosstalk: [],
};
const HAND_DB = 1;
const levelOfHeight = { low: -24, half: -13, full: -4 } as const;

const says = (page: Page): Promise<string> => page.locator('evenhand-rig-screen h1').innerText();
const learned = (page: Page): Promise<{ rig: Rig; task: Rigging['task'] }> =>
  page.evaluate(() => {
    const screen = document.querySelector('evenhand-rig-screen') as unknown as { rig: Rig; rigging: Rigging };
    return { rig: screen.rig, task: screen.rigging.task };
  });
const handOn = (rig: Rig, id: string): Hand =>
  rig.surfaces.find((one) => one.id === id)?.port === PADS[0] ? 'R' : 'L';

/**
 * Sends what a kit reports, stamped as it was struck, both pads unplugged and plugged in again half way, and takes the page's
 * clock to the end of it: at once, or step by step where it is told from when the times count.
 */
async function lay(
  page: Page,
  hits: readonly RawHit[],
  { replug = true, fromMs = null as number | null } = {},
): Promise<void> {
  const sent = hits.map(({ atMs, note, velocity }) => ({
    atMs,
    pad: PADS[note === NOTES[0] ? 0 : 1],
    velocity,
  }));
  await page.evaluate(
    async ([all, pads, half, fromMs]) => {
      const from = fromMs ?? performance.now();
      const still = async () => {
        for (let turn = 0; turn < 20; turn += 1) await Promise.resolve();
      };
      for (const [index, { atMs, pad, velocity }] of all.entries()) {
        if (index === half) {
          for (const one of pads) window.devices[one].unplug();
          await still();
          for (const one of pads) window.devices[one].plug();
          await still();
        }
        window.devices[pad].send([0x99, 38, velocity], from + atMs);
        window.devices[pad].send([0x99, 38, 0], from + atMs + 1);
      }
    },
    [sent, PADS, replug ? Math.floor(sent.length / 2) : -1, fromMs] as const,
  );
  const untilMs = Math.ceil((sent[sent.length - 1]?.atMs ?? 0) + 50);
  if (fromMs === null) await page.clock.fastForward(untilMs);
  // A click looks ahead: its timers must come in between.
  else for (let atMs = 0; atMs < untilMs; atMs += 100) await page.clock.fastForward(100);
}

const strokesOf = (strikes: readonly Struck[], of = quietKit, seed = 1): readonly RawHit[] =>
  reportedBy(of, strikes, seed).hits;

/** Strikes on one pad, a quarter of a second apart, then silence. */
async function taps(page: Page, pad: 'R' | 'L', count: number): Promise<void> {
  await page.clock.runFor(1400);
  await lay(
    page,
    strokesOf(Array.from({ length: count }, (_, index) => ({ atMs: 250 * index, pad, levelDb: -6 }))),
    { replug: false },
  );
  await page.clock.runFor(1200);
}

/** Gives a step what it asks for, at the levels told. */
async function answer(
  page: Page,
  levelOf: (asked: { readonly hand: Hand; readonly height?: keyof typeof levelOfHeight }) => number,
  spreadDb?: number,
): Promise<void> {
  const { rig, task } = await learned(page);
  if (!('state' in task) || task.state === null || !('asked' in task.state))
    throw new Error(`nothing is asked: ${task.kind}`);
  const strikes = struckAsAsked(task.state.asked, levelOf, 5, spreadDb);
  await lay(page, strokesOf(strikes.map((one) => ({ ...one, pad: handOn(rig, one.pad) }))));
  await page.clock.runFor(1000);
}

it('a kit of known faults is learned step by step, replugged in each, and its rig goes out and comes in again', async () => {
  const page = await stage.open({
    inputs: PADS,
    outputs: ['Module'],
    path: '#rig',
    clock: true,
    contextOptions: { permissions: ['clipboard-read', 'clipboard-write'] },
  });
  await page.getByRole('button', { name: 'Connect MIDI' }).click();
  await expect.poll(() => says(page)).toBe('Strike the first thing you play.');
  // Within 1 ms on two surfaces: two.
  await lay(
    page,
    strokesOf([
      { atMs: 100, pad: 'R', levelDb: -6 },
      { atMs: 100.8, pad: 'L', levelDb: -6 },
    ]),
  );
  await page.clock.runFor(4500);
  await expect.poll(() => says(page)).toBe('Strike once where your right hand plays.');
  await lay(
    page,
    strokesOf([
      { atMs: 100, pad: 'R', levelDb: -6 },
      { atMs: 900, pad: 'L', levelDb: -6 },
    ]),
  );
  await expect.poll(() => says(page)).toBe('Low strokes, right hand, on Snare');
  await answer(page, ({ hand, height = 'low' }) => levelOfHeight[height] + (hand === 'R' ? HAND_DB : 0), 0.6);
  await expect.poll(() => says(page)).toBe('Right pad is ready.');

  // Two strikes: more. Swapped spots come first; what belongs to the pads is parted from the hands.
  await taps(page, 'R', 2);
  await expect.poll(() => says(page)).toMatch(/^Soft strokes, right hand, where it always lands/);
  await answer(page, ({ hand }) => -18 + (hand === 'R' ? HAND_DB / 2 : -HAND_DB / 2));
  await expect.poll(() => says(page)).toMatch(/^One strike, and softest strokes come next/);
  const [right, left] = (await learned(page)).rig.surfaces;
  expect(Math.abs(right.trimDb - left.trimDb - 2.4)).toBeLessThan(0.5);
  await page
    .getByText(/^The right hand|right hand/)
    .first()
    .waitFor();

  // One strike goes on. The softest that arrives: velocity 6 on the right, where softer ones are lost.
  await taps(page, 'R', 1);
  await expect.poll(() => says(page)).toBe('Softer and softer on Snare');
  const softer = (pad: 'R' | 'L', fromMs: number, levels: readonly number[]): Struck[] =>
    levels.map((levelDb, index) => ({ atMs: fromMs + 400 * index, pad, levelDb }));
  const down = Array.from({ length: 11 }, (_, index) => -38 - 1.3 * index);
  const soft = [...softer('R', 100, [...down, -56, -58, -52.5]), ...softer('L', 9000, [...down, -50])];
  await lay(page, strokesOf(soft));
  await page.clock.runFor(1000);
  await expect.poll(() => says(page)).toMatch(/^One strike, and closest pair comes next/);
  expect((await learned(page)).rig.surfaces[0].thresholdVelocity).toBe(6);

  // Flams of 9, 12, … 36 ms on a pad that merges what is nearer than 20: 21 is the first told.
  await taps(page, 'R', 1);
  await expect.poll(() => says(page)).toBe('Tight flams on Snare');
  const random = seeded(2);
  const flams = Array.from({ length: 10 }, (_, n): Struck[] => [
    { atMs: 700 * (n + 1) - 9 - 3 * n, pad: 'R', levelDb: -20 },
    { atMs: 700 * (n + 1), pad: 'R', levelDb: -6 },
  ]).flat();
  const doubles = Array.from({ length: 10 }, (_, n): Struck[] => [
    { atMs: 700 * (n + 11), pad: 'R', levelDb: -4 },
    { atMs: 700 * (n + 11) + 90, pad: 'R', levelDb: levelOfHeight.low + HAND_DB + 3 + 0.5 * normal(random) },
  ]).flat();
  await lay(page, strokesOf([...flams, ...doubles]));
  await page.clock.runFor(1000);
  await expect.poll(() => says(page)).toMatch(/^One strike, and false notes come next/);
  const pair = (await learned(page)).rig.surfaces[0];
  expect(pair.closestPairMs).toBeCloseTo(21, 6);
  expect(Math.abs((pair.afterAccent?.db ?? 0) - 3)).toBeLessThan(0.5);

  // Half a minute of single strokes on a kit that adds notes of its own.
  await taps(page, 'R', 1);
  await expect.poll(() => says(page)).toBe('Single strokes, on every surface in turn, pedals too');
  const singles = Array.from({ length: 62 }, (_, n): Struck => ({
    atMs: 500 * n + 200 + 15 * normal(random),
    pad: n % 2 === 0 ? 'R' : 'L',
    levelDb: -8 + 3 * normal(random),
  }));
  await lay(page, strokesOf(singles, kit, 3));
  await page.clock.runFor(1000);
  await expect.poll(() => says(page)).toMatch(/^One strike, and delays come next/);
  const { rig } = await learned(page);
  const labels = labelledRight(rig);
  expect(labels.share).toBeGreaterThanOrEqual(0.99);
  expect(labels.swallowed).toBe(0);

  // The play-along, to a click on the kit's own output.
  await page.getByRole('button', { name: 'Use it' }).click();
  await taps(page, 'R', 1);
  await expect.poll(() => says(page)).toBe('One stroke with each click');
  const { task } = await learned(page);
  const clicksMs = task.kind === 'delays' ? (task.state?.clicksMs ?? []) : [];
  const fromMs = clicksMs[0] - 200;
  await lay(
    page,
    strokesOf(clicksMs.map((atMs) => ({ atMs: atMs - fromMs + 4 * normal(random), pad: 'R', levelDb: -10 }))),
    { fromMs },
  );
  const heard = await page.evaluate(() => window.devices['Module'].sent.filter(({ bytes }) => bytes[2] > 0));
  expect(heard.length).toBeGreaterThanOrEqual(clicksMs.length);
  await page.clock.runFor(2500);
  await expect.poll(() => says(page)).toMatch(/^Click to time stamp: 1[789]\.\d ms\. Take it into the rig\?/);
  expect((await learned(page)).rig.inputDelayMs).toBe(0);
  await taps(page, 'R', 3);
  await expect.poll(async () => Math.abs((await learned(page)).rig.inputDelayMs - 18)).toBeLessThan(1);
  await expect.poll(() => says(page)).toBe('That was all: delays done.');
  await taps(page, 'R', 3);
  await expect.poll(() => says(page)).toBe('Right pad is ready.');

  await outAndIn(page);
  await monitorCopied(page);
  await page.context().close();
}, 120_000);

/** Accents, taps and flams of 30 ms on both pads, as the faulty kit reports them, labelled by a rig. */
function labelledRight(rig: Rig): { readonly share: number; readonly swallowed: number } {
  const random = seeded(9);
  const strikes = Array.from({ length: 480 }, (_, n): Struck[] => {
    const main: Struck = {
      atMs: 156.25 * n + 5 * normal(random),
      pad: n % 16 < 12 ? 'R' : 'L',
      levelDb: (n % 4 === 0 ? -4 : -18) + normal(random),
    };
    return n % 8 === 4 ? [{ ...main, atMs: main.atMs - 30, levelDb: -22 + normal(random) }, main] : [main];
  }).flat();
  const report = reportedBy(kit, strikes, 9);
  const hits = report.hits.map((hit) => ({ ...hit, note: 38, port: PADS[hit.note === NOTES[0] ? 0 : 1] }));
  const { labels, strokes } = condition(rig, settingsOf('working'), hits);
  const echoes = new Set(strokes.filter(({ echoLike }) => echoLike).map(({ hit }) => hit));
  const told = labels.map((label, index) => (echoes.has(index) ? 'echo' : label));
  const right = told.filter((label, index) => label === report.truth[index]).length;
  const swallowed = told.filter(
    (label, index) => report.truth[index] === 'stroke' && label !== 'stroke' && label !== 'echo',
  ).length;
  return { share: right / told.length, swallowed };
}

/** The rig as a file, a new one in its place, and the file opened again. */
async function outAndIn(page: Page): Promise<void> {
  const name = page.getByLabel('Name of the rig in use');
  await name.fill('Two pads, attic');
  await name.press('Enter');
  const before = (await learned(page)).rig;
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Download the rig Two pads, attic' }).click(),
  ]);
  const path = await download.path();
  const file = JSON.parse(readFileSync(path, 'utf8')) as { format: string; rig: Rig };
  expect(file.format).toBe('evenhand-rig');
  expect(file.rig.surfaces).toEqual(before.surfaces);
  // Deleted only after a yes.
  const remove = page.getByRole('button', { name: 'Delete the rig Two pads, attic' });
  page.once('dialog', (dialog) => void dialog.dismiss());
  await remove.click();
  await page.clock.runFor(300);
  expect((await learned(page)).rig.surfaces).toEqual(before.surfaces);
  page.once('dialog', (dialog) => void dialog.accept());
  await remove.click();
  await expect.poll(async () => (await learned(page)).rig).toBeNull();
  await page.getByLabel('Open a rig file').setInputFiles({
    name: 'attic.rig.json',
    mimeType: 'application/json',
    buffer: readFileSync(path),
  });
  await expect.poll(async () => (await learned(page)).rig?.surfaces).toEqual(before.surfaces);
  // A file that is none says why, and the rig stays.
  await page.getByLabel('Open a rig file').setInputFiles({
    name: 'broken.rig.json',
    mimeType: 'application/json',
    buffer: Buffer.from('{"format": "evenhand-rig", "version": 1, "rig": {"levelLaw": "loud"}}'),
  });
  await page
    .getByText(/broken\.rig\.json/)
    .first()
    .waitFor();
  expect((await learned(page)).rig.surfaces).toEqual(before.surfaces);
}

async function monitorCopied(page: Page): Promise<void> {
  await page.locator('evenhand-rig-monitor summary').click();
  await page.getByRole('button', { name: 'Copy for a bug report' }).click();
  await page.getByText('The monitor is on the clipboard.').waitFor();
  const text = await page.evaluate(() => navigator.clipboard.readText());
  expect(text).toMatch(/Right pad/);
  expect(text).toMatch(/0x99|99 26|153|note-on/i);
}

/** Bytes on one cable, each with its time after now, both stamped and sent at once. */
async function send(
  page: Page,
  messages: readonly (readonly [afterMs: number, ...bytes: number[]])[],
): Promise<void> {
  await page.evaluate((all) => {
    const from = performance.now();
    for (const [afterMs, ...bytes] of all) window.devices['Kit'].send(bytes, from + afterMs);
  }, messages);
  await wait(page, Math.max(...messages.map(([afterMs]) => afterMs)) + 50);
}

/** Time goes by in steps that no take would call a sleep. */
async function wait(page: Page, ms: number): Promise<void> {
  for (let step = 0; step < ms; step += 100) await page.clock.fastForward(100);
}

/** Picks of a list by its keys alone, and presses the button beside it. */
async function pick(page: Page, list: string, choice: string): Promise<void> {
  const select = page.getByLabel(list);
  await select.focus();
  for (let step = 0; step < 8; step += 1) {
    const words = await select.evaluate((one: HTMLSelectElement) => one.selectedOptions[0].innerText);
    if (words.startsWith(choice)) break;
    await page.keyboard.press('ArrowDown');
  }
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
}

const surfacesNow = async (page: Page): Promise<[string, readonly number[]][]> =>
  (await learned(page)).rig.surfaces.map(({ name, notes }) => [name, notes]);

it('a kit on one cable: surfaces by strikes, made one, split and named by keyboard, weighed, and takes begun and ended by a rim', async () => {
  const page = await stage.open({ inputs: ['Kit'], outputs: ['Module'], path: '#rig', clock: true });
  await page.getByRole('button', { name: 'Connect MIDI' }).click();
  await expect.poll(() => says(page)).toBe('Strike the first thing you play.');
  // Head and rim of one pad are one surface; a hi-hat is one over its pedal positions, its foot another; a note-on with
  // velocity 0 and a choke are no strikes (MIDI 1.0: note off; polyphonic aftertouch).
  await send(page, [
    [0, 0x99, 38, 90],
    [700, 0x99, 45, 88],
    [800, 0x99, 45, 0],
    [900, 0xa9, 49, 127],
    [1400, 0xb9, 4, 90],
    [1410, 0x99, 42, 80],
    [2100, 0xb9, 4, 0],
    [2110, 0x99, 46, 80],
    [2800, 0x99, 44, 70],
    [3500, 0x99, 37, 90],
  ]);
  await expect.poll(() => surfacesNow(page)).toHaveLength(4);
  const names = (await surfacesNow(page)).map(([name]) => name);
  expect((await surfacesNow(page)).map(([, notes]) => notes)).toEqual([[38, 37], [45], [42, 46], [44]]);
  expect((await learned(page)).rig.surfaces[3].foot).toBe('H');
  await pick(page, `Split a note off ${names[0]}`, '37');
  await expect.poll(() => surfacesNow(page)).toHaveLength(5);

  await pick(page, `Make ${names[1]} one with another`, names[0]);
  await expect.poll(() => surfacesNow(page)).toHaveLength(4);
  const merged = (await surfacesNow(page)).find(([, notes]) => notes.includes(38));
  expect(merged?.[1]).toEqual([45, 38]);
  await pick(page, `Split a note off ${merged?.[0]}`, '45');
  await expect.poll(() => surfacesNow(page)).toHaveLength(5);
  const split = (await surfacesNow(page)).find(([, notes]) => notes.includes(45));
  expect(split?.[1]).toEqual([45]);
  await page.getByLabel(`Name of ${split?.[0]}`, { exact: true }).focus();
  await page.keyboard.press('Control+a');
  await page.keyboard.type('Floor');
  await page.keyboard.press('Enter');
  await expect.poll(async () => (await surfacesNow(page)).map(([name]) => name)).toContain('Floor');

  // A cable gone and back in the middle of it all: the rig is as it was.
  const before = await surfacesNow(page);
  await page.evaluate(async () => {
    window.devices['Kit'].unplug();
    await Promise.resolve();
    window.devices['Kit'].plug();
  });
  expect(await surfacesNow(page)).toEqual(before);

  await weighed(page);
  await clickTested(page);
  await startedByTheRim(page);
  await page.context().close();
}, 120_000);

/** Trims: the floor reads 3 dB louder, the hi-hat 2 softer, the snare and the rim as they are. */
async function weighed(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Teach: trims between surfaces' }).focus();
  await page.keyboard.press('Enter');
  const { rig, task } = await learned(page);
  if (task.kind !== 'trims') throw new Error(`trims were not begun: ${task.kind}`);
  const gainOf = (note: number): number => (note === 45 ? 3 : note === 42 ? -2 : 0);
  const noteOf = (id: string): number => rig.surfaces.find((one) => one.id === id)?.notes[0] ?? 0;
  const strikes = struckAsAsked(task.state.asked, ({ surface }) => -12 + gainOf(noteOf(surface)), 7);
  await send(
    page,
    strikes.map(({ atMs, pad, levelDb }) => [atMs, 0x99, noteOf(pad), Math.round(velocityOfLevel(levelDb))]),
  );
  await page.clock.runFor(1000);
  await expect.poll(() => says(page)).toMatch(/^One strike, and softest strokes come next/);
  const now = (await learned(page)).rig.surfaces;
  const trimOf = (note: number): number => now.find(({ notes }) => notes.includes(note))?.trimDb ?? NaN;
  // Against the mean of the four, 0.25 dB louder than the snare.
  expect(Math.abs(trimOf(45) + 2.75)).toBeLessThan(0.5);
  expect(Math.abs(trimOf(42) - 2.25)).toBeLessThan(0.5);
  expect(Math.abs(trimOf(38) - 0.25)).toBeLessThan(0.5);
  await page.keyboard.press('Escape');
  await expect.poll(() => says(page)).toBe('Kit is ready.');
}

async function clickTested(page: Page): Promise<void> {
  const clicks = () =>
    page.evaluate(() => window.devices['Module'].sent.filter(({ bytes }) => bytes[2] > 0).length);
  expect(await clicks()).toBe(0);
  await page.getByRole('button', { name: 'Test Module' }).click();
  await wait(page, 2000);
  expect(await clicks()).toBeGreaterThanOrEqual(3);
  await page.getByRole('button', { name: 'Use it' }).click();
  await wait(page, 2000);
}

const WALK = 'Single paradiddle, accent walk';

/** Three strikes on the rim make it start and stop; then: start, stop, what Review proposes, stop, faster. */
async function startedByTheRim(page: Page): Promise<void> {
  const rim = (count: number) =>
    send(
      page,
      Array.from({ length: count }, (_, index) => [20 + 250 * index, 0x99, 37, 90] as const),
    );
  const stop = page.locator('evenhand-play-screen').getByRole('button', { name: 'Stop' });
  /** The page's own clock goes on until the take has begun: what it waits for isn't only time. */
  const started = () =>
    expect
      .poll(async () => {
        await wait(page, 200);
        return stop.isVisible();
      })
      .toBe(true);
  const line = page.locator('evenhand-app header .line');
  await rim(3);
  await wait(page, 800);
  await page.locator('evenhand-play-screen').waitFor();
  await wait(page, 800);
  await rim(1);
  await started();
  const playAndStop = async (): Promise<void> => {
    await wait(page, 4000);
    await send(
      page,
      Array.from({ length: 32 }, (_, index) => [170 * index, 0x99, 38, 60] as const),
    );
    // A strike on the rim among others stops nothing; one with silence after it does.
    await send(page, [
      [100, 0x99, 37, 90],
      [270, 0x99, 38, 60],
    ]);
    await wait(page, 900);
    await stop.waitFor();
    await rim(1);
    await wait(page, 1000);
    await page.locator('evenhand-review-screen').waitFor();
    await wait(page, 700);
  };
  await playAndStop();
  // After a take Review's one button is what a strike presses: what it proposes, at its tempo.
  const proposed = await page.locator('evenhand-review-screen .press button.strong').first().innerText();
  const [, title, bpm] = /^Play the remedy: (.*), (\d+) bpm$/.exec(proposed) ?? ['', WALK, '84'];
  await rim(1);
  await started();
  expect(await line.innerText()).toContain(`${title} · ${bpm} bpm`);
  await playAndStop();
  await rim(3);
  await started();
  // Three strikes: a twentieth faster.
  expect(await line.innerText()).toContain(`${Math.round(1.05 * Number(bpm))} bpm`);
  await page.keyboard.press('Space');
}

it('two pads of one name that come back under other ids are told apart by a strike', async () => {
  const page = await stage.open({ inputs: [], path: '#rig', clock: true });
  const plugIn = (ids: readonly string[]) =>
    page.evaluate((all) => {
      for (const id of all) window.devices[id] = window.fakeMidi.addInput('Pad', { id });
    }, ids);
  const strike = async (id: string): Promise<void> => {
    await page.evaluate((one) => window.devices[one].send([0x99, 38, 90]), id);
    await wait(page, 700);
  };
  const portOf = async (surface: number) => (await learned(page)).rig.surfaces[surface].port;
  await plugIn(['first', 'second']);
  await page.getByRole('button', { name: 'Connect MIDI' }).click();
  await expect.poll(() => says(page)).toBe('Strike the first thing you play.');
  await strike('first');
  await strike('second');
  await expect.poll(async () => (await learned(page)).rig.surfaces.length).toBe(2);
  expect([await portOf(0), await portOf(1)]).toEqual(['Pad', 'Pad (2)']);

  // Both out, and in again in the other order, at sockets of other ids: what was first is "Pad (2)" now.
  await page.evaluate(() => {
    window.devices['first'].unplug();
    window.devices['second'].unplug();
  });
  await wait(page, 300);
  await plugIn(['was second', 'was first']);
  await expect.poll(() => says(page)).toBe('Strike Snare once.');
  await strike('was first');
  await expect.poll(() => portOf(0)).toBe('Pad (2)');
  expect(await portOf(1)).toBe('Pad');
  await expect.poll(() => says(page)).not.toBe('Strike Snare once.');
  await page.context().close();
}, 60_000);
