import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { browserPath, loaded } from './browser.ts';
import { openMadeUp } from './made-up/open-made-up.ts';

const why = 'The report is being worked out again.';
const marked = `${why} The figures here are those from before.`;

describe.skipIf(!browserPath)('figures that are being worked out again', () => {
  const open = openMadeUp();

  it('are marked so on the service sheet, on the workshop list and in its file, until new ones come in', async () => {
    const { page, faults } = await open();
    let behind = true;
    const news = 'retry: 300\n\nevent: bike\ndata: {"bikeId":"b1"}\n\n';
    await page.route('**/api/events', (route) => route.fulfill({ contentType: 'text/event-stream', body: news }));
    await page.route(/\/api\/bikes(\/b1\/sheet)?$/, async (route) => {
      const answer = await (await route.fetch()).json();
      if (behind) Object.assign(answer.bikes?.[0] ?? answer, { pending: 1, staleReason: why });
      await route.fulfill({ json: answer });
    });
    await page.goto('/workshop');
    await loaded(page);
    expect(await page.getByText(marked).count()).toBe(1);
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save as CSV' }).click();
    expect(readFileSync(await (await download).path(), 'utf8').split(why)).toHaveLength(2);
    await page.goto('/bikes/b1/sheet');
    await loaded(page);
    expect(await page.locator('.sheet').textContent()).toContain(marked);
    behind = false;
    await page.getByText(marked).waitFor({ state: 'detached', timeout: 15_000 });
    expect(faults).toEqual([]);
    await page.unrouteAll({ behavior: 'ignoreErrors' });
    await page.context().close();
  });
});
