import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ZipFile } from 'yazl';
import { hutBike, madeRides } from '../server/made-rides.ts';
import { browserPath, loaded, seriousFindings, sidewaysPx } from './browser.ts';
import { withRealServer } from './with-real-server.ts';

const rides = madeRides(4);
const log = 'at,parameter,amount,unit,note\n2026-05-01T10:00:00Z,cable-tension,2,clicks,at the hut\n';
const called = (name: string): string => JSON.stringify({ ...hutBike, name });

/** Three bikes with their folders, one of which has a broken file, one folder without a bike file, and a ride that is none. */
const files: Readonly<Record<string, string | Uint8Array>> = {
  'hut/h1/bike.json': called('Hut 1'),
  'hut/h1/ride.fit': rides[0].bytes,
  'hut/h1/adjustments.csv': log,
  'hut/h2/bike.json': called('Hut 2'),
  'hut/h2/ride.fit': rides[1].bytes,
  'hut/h2/notes.csv': 'nothing to read here',
  'hut/h3/bike.json': '{"name": "Hut 3", "chainrings": [32]}',
  'hut/h3/ride.fit': rides[2].bytes,
  'hut/spare/ride.fit': rides[3].bytes,
};

async function zipped(): Promise<Buffer> {
  const zip = new ZipFile();
  for (const [path, content] of Object.entries(files)) zip.addBuffer(Buffer.from(content), path);
  zip.end();
  const chunks: Buffer[] = [];
  for await (const chunk of zip.outputStream) chunks.push(chunk as Buffer);
  return Buffer.concat(chunks);
}

describe.skipIf(!browserPath)('a folder of several bikes', () => {
  const real = withRealServer();
  const top = mkdtempSync(join(tmpdir(), 'cogwright-fleet-'));
  beforeAll(() => {
    for (const [path, content] of Object.entries(files)) {
      mkdirSync(join(top, path, '..'), { recursive: true });
      writeFileSync(join(top, path), content);
    }
  });
  afterAll(() => rmSync(top, { recursive: true }));

  const kept = async (page: Page): Promise<unknown[]> => {
    const { bikes } = (await (await page.request.get('/api/bikes')).json()) as {
      bikes: { bike: { name: string }; rides: number; adjustments: number }[];
    };
    return bikes
      .map(({ bike, rides: count, adjustments }) => [bike.name, count, adjustments])
      .sort((a, b) => String(a[0]).localeCompare(String(b[0])));
  };
  const made = [
    ['Hut 1', 1, 1],
    ['Hut 2', 1, 0],
  ];

  it('makes a bike of each, tells by folder what was made and what was not, and the next time finds them', async () => {
    const { page, faults } = await real.open({ width: 'phone' });
    await page.goto('/add');
    await loaded(page);
    await page.locator('.file-choice input[webkitdirectory]').setInputFiles(join(top, 'hut'));
    await page.getByRole('heading', { name: '2 bikes, a folder each' }).waitFor();
    const step = page.getByRole('region', { name: 'The bikes' });
    expect(await step.getByRole('heading', { level: 3 }).allTextContents()).toEqual([
      'Left out',
      'h3',
      'spare',
      'Taken in',
      'h1',
      'h2',
    ]);
    expect(await step.textContent()).toMatch(/bike\.json: .*cassette.*1 file belongs to none of the bikes/s);
    expect(await seriousFindings(page)).toEqual([]);
    expect(await sidewaysPx(page)).toBe(0);
    await page.getByRole('button', { name: 'Make 2 bikes and work through 4 files' }).click();
    await page.getByRole('heading', { level: 1, name: 'Done' }).waitFor();
    await page
      .getByText('2 bikes made, 2 rides worked through, 1 file not taken and 2 folders not taken.')
      .first()
      .waitFor();
    const list = page.locator('.work-list > li');
    expect(await list.nth(2).textContent()).toMatch(/^h3left outbike\.json: .*cassette/);
    expect(await list.nth(3).textContent()).toMatch(/^spareleft out1 file belongs to none of the bikes/);
    expect(await list.nth(0).textContent()).toBe('h1: Hut 1new bike: 1 of 1 ride done and 1 adjustment taken in');
    expect(await list.nth(1).textContent()).toMatch(/^h2: Hut 2new bike: 1 of 1 ride donenotes\.csv: /);
    expect(await seriousFindings(page)).toEqual([]);
    expect(await sidewaysPx(page)).toBe(0);
    expect(await kept(page)).toEqual(made);
    await page.getByRole('button', { name: 'Choose again' }).click();
    await page.locator('.file-choice input[webkitdirectory]').setInputFiles(join(top, 'hut'));
    await page.getByText('here already, as this very bike').first().waitFor();
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('may be packed, and what is here already stays as it is', async () => {
    const { page, faults } = await real.open();
    await page.goto('/add');
    await loaded(page);
    const zip = { name: 'all.zip', mimeType: 'application/zip', buffer: await zipped() };
    await page.locator('.file-choice input[multiple]').first().setInputFiles(zip);
    await page.getByText(/^\d+ files chosen, \d+ kB$/).click();
    await page.getByText('all/hut/h1/ride.fit').first().waitFor();
    await page.getByRole('button', { name: 'Work through 4 files' }).click();
    await page.getByRole('heading', { level: 1, name: 'Nothing new' }).waitFor();
    expect(await page.locator('.work-list > li').first().textContent()).toBe(
      'h1: Hut 1here before: 1 ride already here',
    );
    await page.getByText('2 rides already here, 1 file not taken and 2 folders not taken.').first().waitFor();
    expect(await kept(page)).toEqual(made);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('leads to the verdict only once that is there', async () => {
    const { page, faults } = await real.open();
    let pending = 1;
    await page.route('**/api/bikes/*?events=false', async (route) => {
      const answer = await (await route.fetch()).json();
      await route.fulfill({ json: { ...answer, pending } });
    });
    await page.goto('/add');
    await loaded(page);
    const ride = { name: 'ride.fit', mimeType: 'application/octet-stream', buffer: Buffer.from(rides[2].bytes) };
    const bike = { name: 'bike.json', mimeType: 'text/plain', buffer: Buffer.from(called('Hut 4')) };
    await page.locator('.file-choice input[multiple]').first().setInputFiles([ride, bike]);
    await page.getByRole('button', { name: 'Save the bike and work through 1 file' }).click();
    await page.getByText('The verdict is being worked out from them and follows here.').waitFor();
    const way = page.getByRole('main').locator('a.button').first();
    expect(await way.textContent()).toBe('To Hut 4');
    pending = 0;
    const bikeId = (await way.getAttribute('href'))?.split('/').at(-1);
    await page.request.post(`/api/bikes/${bikeId}/adjustments`, {
      data: { at: '2026-05-01T10:00:00Z', parameter: 'chain', amount: null, unit: 'done', note: '' },
    });
    await page.getByRole('link', { name: 'Read the verdict' }).waitFor();
    expect(await page.getByText('The verdict is being worked out').count()).toBe(0);
    expect(faults).toEqual([]);
    await page.unrouteAll({ behavior: 'ignoreErrors' });
    await page.context().close();
  });
});
