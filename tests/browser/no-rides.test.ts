import { describe, expect, it } from 'vitest';
import { madeRides } from '../server/made-rides.ts';
import { browserPath, loaded, seriousFindings, sidewaysPx } from './browser.ts';
import { withRealServer } from './with-real-server.ts';

const picture = {
  name: 'a photograph of the rear derailleur after the ride to the upper hut.fit',
  mimeType: 'application/octet-stream',
  buffer: Buffer.from([0xff, 0xd8, 0xff, 0xe0, 0, 0x10, 0x4a, 0x46]),
};
const bill = { name: 'bill.pdf', mimeType: 'application/pdf', buffer: Buffer.from('%PDF-1.7\n') };

describe.skipIf(!browserPath)('files that are no rides', () => {
  const real = withRealServer();

  it('are refused by what they hold before anything is sent, and the rides beside them go on', async () => {
    const { page, faults } = await real.open({ width: 'phone' });
    const sent: string[] = [];
    page.on('request', (request) => {
      if (request.method() === 'POST') sent.push(request.url());
    });
    await page.goto('/add');
    await loaded(page);
    const choose = (files: Parameters<typeof input.setInputFiles>[0]): Promise<void> => input.setInputFiles(files);
    const input = page.locator('.file-choice input[multiple]').first();
    await choose([picture, bill]);
    const said = page.locator('.file-choice').getByRole('alert');
    await said.getByText(`${picture.name} is a JPEG picture and no ride log, and was left out.`).waitFor();
    await said.getByText('bill.pdf is a PDF document and no ride log, and was left out.').waitFor();
    expect(await page.locator('.file-list li').count()).toBe(0);
    expect(sent).toEqual([]);
    expect(await seriousFindings(page)).toEqual([]);
    expect(await sidewaysPx(page)).toBe(0);
    const [ride] = madeRides(1);
    await choose([{ name: ride.name, mimeType: 'application/octet-stream', buffer: Buffer.from(ride.bytes) }]);
    await page.locator('.file-list li', { hasText: ride.name }).waitFor();
    expect(await said.isVisible()).toBe(false);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('are no archives either, which is said before they are sent', async () => {
    const { page, faults } = await real.open();
    const sent: string[] = [];
    page.on('request', (request) => {
      if (request.method() === 'POST') sent.push(request.url());
    });
    await page.goto('/data');
    await page.getByLabel('Archive from another machine').setInputFiles({ ...picture, name: 'saved.zip' });
    await page.getByRole('button', { name: 'Bring it in' }).click();
    await page.getByText('saved.zip is no archive, which is a zip file: nothing was sent.').waitFor();
    expect(sent).toEqual([]);
    expect(faults).toEqual([]);
    await page.context().close();
  });
});
