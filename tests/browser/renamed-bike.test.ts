import { describe, expect, it } from 'vitest';
import { browserPath, loaded } from './browser.ts';
import { withRealServer } from './with-real-server.ts';

const bike = { name: 'Wheatear', chainrings: [32], cassette: [11, 13, 15, 18, 21, 24, 28, 32], actuation: 'cable' };

describe.skipIf(!browserPath)('a bike that is given another name', () => {
  const real = withRealServer();
  const add = async (name: string): Promise<string> => {
    const headers = { 'content-type': 'application/json' };
    const body = JSON.stringify({ ...bike, name });
    const answer = await fetch(`${real.server.address}/api/bikes`, { method: 'POST', headers, body });
    return ((await answer.json()) as { id: string }).id;
  };

  it('is not called as another one, and has its rides worked through again only for another drivetrain', async () => {
    const [id] = [await add('Wheatear'), await add('Whinchat')];
    const { page, faults } = await real.open();
    await page.goto(`/bikes/${id}`);
    await loaded(page);
    const section = page.locator('section[aria-labelledby=drivetrain]');
    const save = async (field: string, value: string): Promise<void> => {
      await section.getByLabel(field).fill(value);
      await section.getByRole('button', { name: 'Save' }).click();
    };
    await section.getByRole('button', { name: 'Change' }).click();
    await save('Name', 'Whinchat');
    await section.getByText('Another bike is called “Whinchat” already').waitFor();
    await save('Name', 'Stonechat');
    await page.getByRole('heading', { name: 'Stonechat' }).waitFor();
    await page.getByText('Saved.', { exact: true }).waitFor({ state: 'attached' });
    await section.getByRole('button', { name: 'Change' }).click();
    await save('Tyre', '32-622');
    await page.getByText('The rides are being worked through again.').waitFor({ state: 'attached' });
    expect(faults).toEqual([]);
    await page.context().close();
  });
});
