import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { hutBike, madeRides, valleyBike } from '../server/made-rides.ts';
import { browserPath, loaded, seriousFindings, sidewaysPx } from './browser.ts';
import { withRealServer } from './with-real-server.ts';

const textFile = (file: string, text: string) => ({ name: file, mimeType: 'text/plain', buffer: Buffer.from(text) });
const header = 'at,parameter,amount,unit,note\n';
const { name } = hutBike;
const rides = madeRides(2).map((ride) => ({
  name: ride.name,
  mimeType: 'application/octet-stream',
  buffer: Buffer.from(ride.bytes),
}));
const bikeFile = textFile('bike.json', JSON.stringify(hutBike));
const logFile = textFile('adjustments.csv', `${header}2026-05-01T10:00:00Z,cable-tension,2,clicks,at the hut\n`);

interface Logged {
  readonly id: string;
  readonly bike: { readonly name: string };
  readonly rides: number;
  readonly adjustments: number;
}

describe.skipIf(!browserPath)('bike and adjustments files', () => {
  const real = withRealServer();

  const bikes = async (page: Page): Promise<Logged[]> =>
    ((await (await page.request.get('/api/bikes')).json()) as { bikes: Logged[] }).bikes;
  const choose = (page: Page, files: Parameters<Page['setInputFiles']>[1]): Promise<void> =>
    page.locator('.file-choice input[multiple]').first().setInputFiles(files);
  const takeIn = async (page: Page, button: string, file: ReturnType<typeof textFile>): Promise<void> => {
    const [chooser] = await Promise.all([
      page.waitForEvent('filechooser'),
      page.getByRole('button', { name: button }).click(),
    ]);
    await chooser.setFiles(file);
  };

  it('a broken log is named before anything is sent, and left out', async () => {
    const { page, faults } = await real.open({ width: 'desktop' });
    await page.goto('/add');
    await loaded(page);
    await choose(page, [rides[0], textFile('log.csv', `${header}2026-05-01 10:00,cable-tension,2,clicks,\n`)]);
    const fault = page
      .getByRole('listitem')
      .filter({ hasText: /It is left out until it is put right\.$/ })
      .last();
    expect(await fault.textContent()).toMatch(/: line 2/);
    await page.getByRole('heading', { name: 'log.csv' }).waitFor();
    await page.getByRole('button', { name: 'Save the bike and work through 1 file' }).waitFor();
    const levels = await page
      .locator('main :is(h1, h2, h3, h4)')
      .evaluateAll((all) => all.map(({ tagName }) => Number(tagName[1])));
    expect(levels.every((level, i) => level <= (levels[i - 1] ?? 0) + 1)).toBe(true);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('a keeper enters a bike from its file before its first ride, and takes its log in', async () => {
    const { page, faults } = await real.open({ width: 'phone', expectFailures: true });
    await page.goto('/');
    await loaded(page);
    await page.getByRole('link', { name: 'Enter a bike' }).click();
    await takeIn(page, 'Read a bike file', textFile('broken.json', '{"name": "Hut mule", "chainrings": [32]}'));
    await page.getByText(/^broken\.json: .*cassette.*Mend the bike file and try again\.$/).waitFor();
    const mule = { name: 'Hut mule', chainrings: [34], cassette: [11, 13, 15, 17, 19, 21, 24, 28], tyre: '47-622' };
    await takeIn(page, 'Read a bike file', textFile('mule.json', JSON.stringify(mule)));
    await page.getByText('Read from mule.json. Look it over, then save it.').waitFor();
    expect(await page.getByLabel('Cassette').inputValue()).toBe('11 13 15 17 19 21 24 28');
    expect(await seriousFindings(page)).toEqual([]);
    expect(await sidewaysPx(page)).toBe(0);
    await page.getByRole('button', { name: 'Save the bike' }).click();
    await page.getByRole('heading', { level: 1, name: 'Hut mule' }).waitFor();
    const told = page.getByRole('main');
    const wrong = `${header}2026-05-01T10:00:00Z,cable-tension,2,turns,\n`;
    await takeIn(page, 'Take in a file', textFile('log.csv', wrong));
    await told.getByText(/^log\.csv: line 2, column unit: .*counted in clicks/).waitFor();
    expect(await page.locator('.entry').count()).toBe(0);
    const right = `${header}2026-05-01T10:00:00Z,cable-tension,2,clicks,\n2026-05-02T10:00:00Z,chain,,,new\n`;
    await takeIn(page, 'Take in a file', textFile('log.csv', right));
    await told.getByText('log.csv: 2 adjustments taken in.').waitFor();
    await expect.poll(() => page.locator('.entry').count()).toBe(2);
    await takeIn(page, 'Take in a file', textFile('log.csv', right));
    await told.getByText('log.csv: Nothing new: 2 were there already.').waitFor();
    expect(await page.locator('.entry').count()).toBe(2);
    expect(await seriousFindings(page)).toEqual([]);
    expect(await sidewaysPx(page)).toBe(0);
    await page.goto('/add');
    await loaded(page);
    await choose(page, textFile('more.csv', `${header}2026-05-02T10:00:00Z,chain,,,\n2026-05-03T10:00:00Z,wheel,,,\n`));
    await page.getByRole('button', { name: 'Take in 1 file' }).click();
    await page.getByText('1 adjustment taken in, 1 was there already.').waitFor();
    await page.getByRole('link', { name: 'To Hut mule' }).click();
    await expect.poll(() => page.locator('.entry').count()).toBe(3);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('chosen together with rides make the bike, and the next time find it, its log not doubled', async () => {
    const { page, faults } = await real.open();
    const go = async (ride: (typeof rides)[number], button: string): Promise<void> => {
      await page.goto('/add');
      await loaded(page);
      await choose(page, [ride, bikeFile, logFile]);
      await page.getByRole('button', { name: button }).click();
      await page.getByRole('heading', { name: 'Done' }).waitFor();
    };
    await go(rides[0], 'Save the bike and work through 2 files');
    await page.getByText('1 ride worked through and 1 adjustment taken in.').first().waitFor();
    await go(rides[1], 'Work through 2 files');
    expect(await page.locator('.work-list').textContent()).toContain('Nothing new: 1 was there already.');
    await page.getByRole('link', { name: 'Read the verdict' }).click();
    await page.getByRole('heading', { level: 1, name }).waitFor();
    expect(await page.locator('.entry').count()).toBe(1);
    const made = (await bikes(page)).filter(({ bike }) => bike.name === name);
    expect(made).toMatchObject([{ rides: 2, adjustments: 1 }]);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('without rides ask whose they are, and say what is wrong', async () => {
    const { page, faults } = await real.open({ expectFailures: true });
    await page.goto('/add');
    await loaded(page);
    await choose(page, textFile('log.csv', `${header}2026-05-03T10:00:00Z,index-offset,1,steps,\n`));
    await page.getByText('Choose the bike they belong to, or add its bike file or its rides as well.').waitFor();
    await page.getByLabel('Which bike do these belong to?').selectOption({ index: 1 });
    const before = await bikes(page);
    await page.getByRole('button', { name: 'Take in 1 file' }).click();
    await page.getByText(/index-offset of 2026-05-03.*a bike with cable actuation has no index-offset/).waitFor();
    expect(await seriousFindings(page)).toEqual([]);
    expect((await bikes(page)).map(({ adjustments }) => adjustments)).toEqual(
      before.map(({ adjustments }) => adjustments),
    );
    await page.getByRole('button', { name: 'Add more' }).click();
    await choose(page, [bikeFile, textFile('second.json', JSON.stringify(valleyBike))]);
    await page.getByText('Only one bike can be added at a time').first().waitFor();
    expect(await page.getByRole('form').count()).toBe(0);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('of rides that are on another bike already leave nothing behind', async () => {
    const { page, faults } = await real.open();
    const before = await bikes(page);
    await page.goto('/add');
    await loaded(page);
    const bike = { ...hutBike, name: 'Another name' };
    const log = textFile('log.csv', `${header}2026-05-03T10:00:00Z,chain,,,\n`);
    await choose(page, [rides[0], textFile('bike.json', JSON.stringify(bike)), log]);
    await page.getByRole('button', { name: 'Save the bike and work through 2 files' }).click();
    await page.getByRole('heading', { name: 'Nothing new to work through' }).waitFor();
    await page.getByText('Take it in on the page of that bike.').waitFor();
    await page.getByText('1 already here. 1 adjustments file not taken in: log.csv.').first().waitFor();
    expect((await bikes(page)).map(({ id }) => id).sort()).toEqual(before.map(({ id }) => id).sort());
    expect(faults).toEqual([]);
    await page.context().close();
  });
});
