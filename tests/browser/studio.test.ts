import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { modelTake } from '../../src/model/model-player';
import { writeTake } from '../../src/sessions/take';
import type { Take } from '../../src/sessions/types';
import { drop } from './drop';
import { openStage, type Stage } from './page';

// A teacher’s page with several students: nothing of one lands on another’s. Takes by the model player.

let stage: Stage;
beforeAll(async () => {
  stage = await openStage(4341);
});
afterAll(() => stage.close());

const phrase = phraseNamed('Single paradiddle, accent walk');
const takeOf = (player: string, id: string, seed = 5): Take => ({
  ...modelTake({ phrase, bpm: 84, seed, cycles: 2 }).take,
  id,
  player,
  source: 'played',
});
const fileOf = (take: Take) => ({ name: `${take.id}.take.json`, text: writeTake(take) });

const link = (page: Page, name: string) => page.getByRole('link', { name, exact: true }).click();
const turn = (page: Page) => page.getByLabel('Player', { exact: true });

async function addPlayers(page: Page, names: readonly string[]): Promise<void> {
  await link(page, 'Library');
  for (const name of names) {
    await page.getByLabel('Another player').fill(name);
    await page.getByRole('button', { name: 'Add', exact: true }).click();
    await expect.poll(() => turn(page).locator('option', { hasText: name }).count()).toBe(1);
  }
}

describe('words that are written', () => {
  it('survive every other screen, another’s turn and a reload, and stay with whom they are for', async () => {
    const page = await stage.open({ path: '#library' });
    await addPlayers(page, ['A. B.', 'C. D.']);
    await drop(page, [fileOf(takeOf('A. B.', 'one'))]);
    await page.getByText('A. B.: 1 take, by its name').waitFor();
    await turn(page).selectOption({ label: 'A. B.' });
    await page.getByRole('button', { name: 'Close the list' }).click();
    await link(page, 'Takes');
    await page.locator('evenhand-takes-screen table.own button').first().click();
    await page.getByRole('button', { name: 'Write a note' }).click();
    await page.getByLabel('Your words').fill('Your left hand waits.');
    await turn(page).selectOption({ label: 'C. D.' });
    await page.getByRole('heading', { name: 'No take is open' }).waitFor();
    await turn(page).selectOption({ label: 'A. B.' });
    expect(await page.getByLabel('Your words').inputValue()).toBe('Your left hand waits.');
    await page.getByLabel('Your words').fill('Your left hand waits for the right.');
    await page.reload();
    await link(page, 'Library');
    await page.getByRole('button', { name: /^Go on with it: Note/ }).click();
    expect(await page.getByLabel('Your words').inputValue()).toBe('Your left hand waits for the right.');

    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Download as a page' }).click(),
    ]);
    await download.path();
    await link(page, 'Library');
    await page.getByRole('list', { name: 'Given', exact: true }).getByText('Your left hand waits').waitFor();
    await turn(page).selectOption({ label: 'C. D.' });
    await page.getByRole('heading', { name: 'Written for' }).waitFor({ state: 'detached' });
    await page.context().close();
  });
});
