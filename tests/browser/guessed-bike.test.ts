import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { browserPath, loaded } from './browser.ts';
import { withRealServer } from './with-real-server.ts';

/** A minute of riding that names two cogs only, by a clock whose zone the file does not name. */
const rows = Array.from({ length: 60 }, (_, s) => {
  const second = String(s).padStart(2, '0');
  return `2026-06-01T08:00:${second},4,${s === 0 ? 24 : s === 20 ? 28 : s === 40 ? 24 : ''}`;
});

/** The one bike, once its ride has been placed. */
async function placedBike(address: string): Promise<string> {
  for (;;) {
    const { bikes } = (await (await fetch(`${address}/api/bikes`)).json()) as { bikes: { id: string }[] };
    if (bikes.length > 0) return bikes[0].id;
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
}

describe.skipIf(!browserPath)('the bike of a short ride', () => {
  const real = withRealServer();
  const folder = mkdtempSync(join(tmpdir(), 'cogwright-short-'));
  const file = join(folder, 'short.csv');
  beforeAll(() => writeFileSync(file, ['time,speed_mps,rear_teeth', ...rows].join('\n')));
  afterAll(() => rmSync(folder, { recursive: true }));

  /** The page of the guessed bike once its ride is worked out, and its section on the drivetrain. */
  const bikePage = async () => {
    const id = await placedBike(real.server.address);
    await real.server.settled();
    const watched = await real.open({ width: 'phone' });
    await watched.page.goto(`/bikes/${id}`);
    await loaded(watched.page);
    return { ...watched, drivetrain: watched.page.locator('section[aria-labelledby=drivetrain]') };
  };

  /** The form for the bike of the chosen ride, once it is there: its cassette, and all that is said beside it. */
  const guessOn = async (page: Page) => {
    await page.goto('/add');
    await page.locator('input[type=file]').first().setInputFiles(file);
    const cassette = page.getByLabel('Cassette');
    await cassette.waitFor();
    return { cassette: await cassette.inputValue(), said: await page.locator('.add-guess').textContent() };
  };

  it('is filled in with the cogs that were recorded alone, and says which are not', async () => {
    const { page, faults } = await real.open({ width: 'phone' });
    const { cassette, said } = await guessOn(page);
    expect(cassette).toBe('24 28');
    expect(said).toContain('No ride shows 33, 39 and 46, so they are not filled in here.');
    expect(said).toContain('Without cadence no cog can be seen, and these rides hold none: nothing is measured here.');
    expect(said).not.toContain('Guessed from the rides');
    await page.getByLabel('Name of the bike').fill('Pipit');
    await page.getByRole('button', { name: 'Save the bike' }).click();
    expect(await page.locator('form').textContent()).toContain('Must name 5 to 13 cogs.');
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('is described by hand where one record tells nothing, with no word of a file to give', async () => {
    const { page } = await real.open({ width: 'phone', expectFailures: true });
    await page.goto('/add');
    const one = join(folder, 'one.csv');
    writeFileSync(one, ['time,speed_mps,rear_teeth', rows[0]].join('\n'));
    await page.locator('input[type=file]').first().setInputFiles(one);
    await page.getByLabel('Cassette').waitFor();
    const said = await page.locator('.add-guess').textContent();
    expect(said).toMatch(/Gear records of one cog at most .* Describe the bike/);
    expect(said).not.toMatch(/No gear records|bike file/);
    expect(said).toContain('Without cadence no cog can be seen, and they hold none. Describe it here');
    await page.context().close();
  });

  it('shows on its own page which cogs and times are not known', async () => {
    const form = new FormData();
    form.append('files', new Blob([['time,speed_mps,rear_teeth', ...rows].join('\n')]), 'short.csv');
    await fetch(`${real.server.address}/api/uploads`, { method: 'POST', body: form });
    const { page, faults, drivetrain } = await bikePage();
    expect(await drivetrain.textContent()).toContain('24, 28, 33 (not seen), 39 (not seen), 46 (not seen)');
    expect(await drivetrain.textContent()).toContain(
      'Without cadence no cog can be seen: guessed from the gear records as they stand.',
    );
    expect(await drivetrain.textContent()).toContain('not known: it is measured from rides with cadence');
    await drivetrain.getByRole('button', { name: 'Change' }).click();
    expect(await drivetrain.getByLabel('Cassette').inputValue()).toBe('24 28');
    await drivetrain.getByRole('button', { name: 'Cancel' }).click();

    const rides = page.locator('section[aria-labelledby=rides]');
    const zone = 'Times are those of this browser’s time zone, Europe/Zurich.';
    expect(await rides.textContent()).toContain(zone);
    expect(await rides.locator('th[scope=row]').textContent()).toContain(
      'Its file names no time zone: 08:00 there was taken as UTC',
    );
    expect(await rides.locator('.remarks').textContent()).toContain('Times name no time zone; they were taken as UTC.');

    await page.getByRole('button', { name: 'Log an adjustment' }).click();
    const adjustments = page.locator('section[aria-labelledby=adjustments]');
    expect(await adjustments.textContent()).toContain('In this browser’s time zone, Europe/Zurich');
    await adjustments.getByLabel('What was done').selectOption('hanger');
    await adjustments.getByLabel('When').fill('2026-06-01T09:30');
    await adjustments.getByRole('button', { name: 'Log it' }).click();
    const doubt = adjustments.locator('.entry .remark');
    await doubt.waitFor();
    expect(await doubt.textContent()).toMatch(
      /^It is not sure whether the ride of 1 June 2026, 10:00 was before or after/,
    );
    expect(await adjustments.textContent()).toContain(zone);

    await rides.getByRole('link').first().click();
    await page.locator('.view-head', { hasText: zone }).waitFor();
    await page.locator('details.warnings[open]', { hasText: 'Times name no time zone' }).waitFor();
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('takes an entry of the other actuation, says what that does, and is then shown with it', async () => {
    const { page, faults, drivetrain } = await bikePage();
    expect(await drivetrain.textContent()).toContain('electronic');
    await page.getByRole('button', { name: 'Log an adjustment' }).click();
    const adjustments = page.locator('section[aria-labelledby=adjustments]');
    const choice = adjustments.getByLabel('What was done');
    expect(await choice.inputValue()).toBe('index-offset');
    await choice.selectOption('cable-tension');
    await adjustments.getByLabel('Amount').fill('one');
    await adjustments.getByRole('button', { name: 'Log it' }).click();
    await adjustments.getByText('Put in how many clicks as a number, such as 1 or 0.5.').waitFor();
    expect(await adjustments.getByLabel('Amount').getAttribute('aria-invalid')).toBe('true');
    await adjustments.getByLabel('Amount').fill('0,5');
    await adjustments.getByLabel('Which way').selectOption('1');
    expect(await adjustments.locator('form').textContent()).toContain('cable tension +0.5 click');
    expect(await adjustments.locator('form').textContent()).toContain(
      'A bike with electronic actuation has none. That was guessed',
    );
    await adjustments.getByRole('button', { name: 'Log it' }).click();
    await drivetrain.getByText('The actuation is taken from the logged adjustments: cable.').waitFor();
    expect(await drivetrain.textContent()).not.toContain('electronic');
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('is saved without its made-up cogs only once its rider has said that it has no others', async () => {
    const { page, faults } = await real.open({ width: 'phone' });
    const bike = { name: '', chainrings: [32], cassette: [14, 16, 18, 21, 24, 28], actuation: 'cable' };
    const json = { bike, certainty: 0.6, madeUpCogs: [18], ridesApart: false, notes: [], withCadence: true, files: [] };
    await page.route('**/api/drivetrain-guess', (route) => route.fulfill({ json }));
    await page.goto('/add');
    await page.locator('input[type=file]').first().setInputFiles(file);
    const cassette = page.getByLabel('Cassette');
    await cassette.waitFor();
    expect(await cassette.inputValue()).toBe('14 16 21 24 28');
    await page.getByLabel('Name of the bike').fill('Siskin');
    const save = page.getByRole('button', { name: 'Save the bike' });
    await save.click();
    await page.getByText('No ride shows 18, so it is not filled in.').waitFor();
    expect(await cassette.getAttribute('aria-invalid')).toBe('true');
    expect(await cassette.evaluate((input) => input === document.activeElement)).toBe(true);
    await page.getByLabel('The bike has no cogs but these').check();
    const [sent] = await Promise.all([
      page.waitForRequest((request) => request.method() === 'POST' && request.url().endsWith('/api/bikes')),
      save.click(),
    ]);
    expect(sent.postDataJSON()).toMatchObject({ cassette: [14, 16, 21, 24, 28] });
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('is described by hand where the rides are of several: a mixture of them is not filled in', async () => {
    const { page, faults } = await real.open({ width: 'phone' });
    const bike = { name: '', chainrings: [35, 56], cassette: [10, 12, 15, 17, 28, 51], actuation: 'cable' };
    const notes = ['These rides do not look like those of one bike.'];
    const json = { bike, certainty: 0.2, madeUpCogs: [], ridesApart: true, notes, withCadence: true, files: [] };
    await page.route('**/api/drivetrain-guess', (route) => route.fulfill({ json }));
    const { cassette, said } = await guessOn(page);
    expect(cassette).toBe('');
    expect(said).toContain('Describe the bike');
    expect(said).toContain(notes[0]);
    expect(said).not.toContain('Is this the bike?');
    expect(faults).toEqual([]);
    await page.context().close();
  });
});
