import { describe, expect, it } from 'vitest';
import { browserPath, loaded } from './browser.ts';
import { withRealServer } from './with-real-server.ts';

const bike = {
  name: 'Wheatear',
  chainrings: [34],
  cassette: [11, 13, 15, 17, 19, 21, 24, 28, 32],
  tyre: '28-622',
  actuation: 'cable',
};

/** Sends JSON to a server and gives what it answers. */
const told = async <Answer>(method: string, address: string, json: object): Promise<Answer> => {
  const headers = { 'content-type': 'application/json' };
  return (await (await fetch(address, { method, headers, body: JSON.stringify(json) })).json()) as Answer;
};

describe.skipIf(!browserPath)('a form that was opened before another window saved', () => {
  const real = withRealServer();

  it('undoes nothing: it says so, and shows how the bike stands once it is left', async () => {
    const { id } = await told<{ id: string }>('POST', `${real.server.address}/api/bikes`, bike);
    const { page } = await real.open();
    await page.goto(`/bikes/${id}`);
    await loaded(page);
    const section = page.locator('section[aria-labelledby=drivetrain]');
    await section.getByRole('button', { name: 'Change' }).click();
    await told('PUT', `${real.server.address}/api/bikes/${id}`, { ...bike, tyre: '32-622' });
    await section.getByLabel('Name').fill('Wheatear of the second window');
    await section.getByRole('button', { name: /^Save/ }).click();
    await section.getByText('changed elsewhere meanwhile').waitFor();
    expect(await section.getByLabel('Name').inputValue()).toBe('Wheatear of the second window');
    const kept = (await (await fetch(`${real.server.address}/api/bikes/${id}`)).json()) as { bike: object };
    expect(kept.bike).toEqual({ ...bike, tyre: '32-622' });
    await section.getByRole('button', { name: 'Cancel' }).click();
    await section.getByText('tyre 32-622').waitFor();
    await section.getByRole('button', { name: 'Change' }).click();
    await section.getByLabel('Name').fill('Wheatear again');
    await section.getByRole('button', { name: /^Save/ }).click();
    await page.getByRole('heading', { name: 'Wheatear again' }).waitFor();
    const saved = (await (await fetch(`${real.server.address}/api/bikes/${id}`)).json()) as { bike: object };
    expect(saved.bike).toEqual({ ...bike, name: 'Wheatear again', tyre: '32-622' });
    await page.context().close();
  });
});
