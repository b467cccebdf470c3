import {
  chromium,
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
  type Page,
} from 'playwright';
import type { AddressInfo } from 'node:net';
import { preview, type PreviewServer } from 'vite';
import { expect } from 'vitest';
import { installFakeMidi, type FakeMidi } from '../fake-midi';

/** The built page, served on loopback, in Chromium. */
export interface Stage {
  /** A page from empty storage, with a virtual Web MIDI unless it is turned off. */
  open(options?: OpenOptions): Promise<Page>;
  close(): Promise<void>;
}

export interface OpenOptions {
  /** Names of the virtual inputs and outputs; null leaves the browser's own Web MIDI as it is. */
  readonly inputs?: readonly string[] | null;
  readonly outputs?: readonly string[];
  readonly context?: BrowserContext;
  readonly contextOptions?: BrowserContextOptions;
  /** The page's clock in the test's hands: it goes on by itself, and can be run fast (`page.clock.runFor`). */
  readonly clock?: boolean;
  /** Run before the page's own scripts. */
  readonly before?: string;
  /** The screen it opens on, the Phrase screen where nothing is said: `#today` is what a player sees first. */
  readonly path?: string;
}

declare global {
  interface Window {
    fakeMidi: FakeMidi;
    devices: Record<string, ReturnType<FakeMidi['addInput']>>;
  }
}

/** Errors and warnings of the console are failures, save these. */
const EXPECTED = [/Failed to load resource: net::ERR_FILE_NOT_FOUND/];

export async function openStage(port: number): Promise<Stage> {
  const executablePath = process.env['CHROMIUM_PATH'];
  if (executablePath === undefined)
    throw new Error('CHROMIUM_PATH is not set: run the browser tests by "npm run browser"');
  const server: PreviewServer = await preview({ preview: { port }, logLevel: 'error' });
  const { port: open } = server.httpServer.address() as AddressInfo;
  const browser: Browser = await chromium.launch({
    executablePath,
    args: [
      '--no-sandbox',
      '--disable-background-networking',
      '--autoplay-policy=document-user-activation-required',
    ],
  });
  const troubles: string[] = [];

  return {
    async open({
      inputs = ['Virtual pad'],
      outputs = [],
      context,
      contextOptions,
      before,
      path = '#phrase',
      clock = false,
    } = {}) {
      const where =
        context ?? (await browser.newContext({ viewport: { width: 1280, height: 900 }, ...contextOptions }));
      const page = await where.newPage();
      page.on('console', (message) => {
        const said = message.text();
        if (['error', 'warning'].includes(message.type()) && !EXPECTED.some((one) => one.test(said)))
          troubles.push(said);
      });
      page.on('pageerror', (error) => troubles.push(error.message));
      if (clock) await page.clock.install();
      if (inputs !== null) {
        await page.addInitScript(`(${installFakeMidi.toString()})(window);
          window.devices = {};
          for (const name of ${JSON.stringify(inputs)}) window.devices[name] = window.fakeMidi.addInput(name);
          for (const name of ${JSON.stringify(outputs)}) window.devices[name] = window.fakeMidi.addOutput(name);`);
      }
      if (before !== undefined) await page.addInitScript(before);
      await page.goto(`http://127.0.0.1:${open}/${path}`);
      return page;
    },
    async close() {
      await browser.close();
      await server.close();
      expect(troubles).toEqual([]);
    },
  };
}

/** A note-on of the General MIDI snare on channel 10. */
export const noteOn = (velocity: number, note = 38): number[] => [0x99, note, velocity];

/** One strike on a virtual pad, stamped now. */
export async function strike(page: Page, pad: string, velocity: number, note = 38): Promise<void> {
  await page.evaluate(([name, bytes]) => window.devices[name].send(bytes), [
    pad,
    noteOn(velocity, note),
  ] as const);
}

/** Allows MIDI, strikes with each hand on one pad, as a new player does. */
export async function setUpOnePad(page: Page, pad = 'Virtual pad'): Promise<void> {
  await page.getByRole('button', { name: /MIDI/ }).click();
  await page.getByText('Strike once with your right hand').waitFor();
  await strike(page, pad, 90);
  await page
    .getByText(/left hand/)
    .first()
    .waitFor();
  await page.waitForTimeout(200);
  await strike(page, pad, 90);
}
