import { describe, expect, it } from 'vitest';
import { hutBike, madeRides } from '../server/made-rides.ts';
import { browserPath, loaded } from './browser.ts';
import { withRealServer } from './with-real-server.ts';

const asFile = (name: string, bytes: string | Uint8Array) => ({
  name,
  mimeType: 'application/octet-stream',
  buffer: Buffer.from(bytes as Uint8Array),
});

describe.skipIf(!browserPath)('the work on files whose server goes away', () => {
  const real = withRealServer();

  it('says so and that nothing is lost, and goes on when the server is back', async () => {
    const { page, faults } = await real.open({ width: 'phone', expectFailures: true });
    let back = (): void => undefined;
    const isBack = new Promise<void>((resolve) => {
      back = resolve;
    });
    let asked = 0;
    await page.route(/\/api\/uploads\/[^/]+\/events/, async (route) => {
      if (++asked === 1) return route.fulfill({ contentType: 'text/event-stream', body: 'retry: 200\n\n' });
      await isBack;
      return route.continue();
    });
    await page.goto('/add');
    await loaded(page);
    const files = [asFile('bike.json', JSON.stringify(hutBike)), ...madeRides(1).map((r) => asFile(r.name, r.bytes))];
    await page.locator('.file-choice input[multiple]').first().setInputFiles(files);
    await page.getByRole('button', { name: /work through 1 file/ }).click();
    await page.getByText(/The server does not answer\. Your files are safe/).waitFor();
    back();
    await page.getByRole('heading', { name: 'Done' }).waitFor({ timeout: 60_000 });
    expect(await page.getByText(/does not answer/).count()).toBe(0);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('does not say that files which are in were not taken in, where their work can be followed no longer', async () => {
    const { page } = await real.open({ width: 'phone', expectFailures: true });
    await page.route(/\/api\/uploads\/[^/]+\/events/, (route) => route.fulfill({ status: 503, body: '' }));
    await page.goto('/add');
    await loaded(page);
    const files = [
      asFile('bike.json', JSON.stringify({ ...hutBike, name: 'Hut bike of the pass' })),
      ...madeRides(2)
        .slice(1)
        .map((r) => asFile(r.name, r.bytes)),
    ];
    await page.locator('.file-choice input[multiple]').first().setInputFiles(files);
    await page.getByRole('button', { name: /work through 1 file/ }).click();
    await page.getByRole('heading', { name: 'The files are in' }).waitFor();
    await page.getByText(/The work on them goes on/).waitFor();
    expect(await page.getByText(/could not be taken in/).count()).toBe(0);
    await page.context().close();
  });

  it('says that the page may be left once the files are in, and the bike is there for who does', async () => {
    const { page } = await real.open({ width: 'phone', expectFailures: true });
    await page.route(/\/api\/uploads\/[^/]+\/events/, () => undefined);
    await page.goto('/add');
    await loaded(page);
    const [, , ride] = madeRides(3);
    const files = [
      asFile('bike.json', JSON.stringify({ ...hutBike, name: 'Hut bike of the lake' })),
      asFile(ride.name, ride.bytes),
    ];
    await page.locator('.file-choice input[multiple]').first().setInputFiles(files);
    await page.getByRole('button', { name: /work through 1 file/ }).click();
    await page.getByText('0 of 1 done, 1 left. You may leave this page: the work goes on.').waitFor();
    await page.getByRole('link', { name: 'Bikes', exact: true }).click();
    await page.getByRole('heading', { name: 'Hut bike of the lake' }).waitFor();
    await page.context().close();
  });
});
