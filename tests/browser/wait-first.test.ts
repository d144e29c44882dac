import { describe, expect, it } from 'vitest';
import { browserPath, loaded, seriousFindings } from './browser.ts';
import { openMadeUp } from './made-up/open-made-up.ts';

const why = '2 of 3 rides are still to be analysed.';

describe.skipIf(!browserPath)('the next step', () => {
  const open = openMadeUp();

  it('is to wait while rides are still to be analysed, with the cautions all the same', async () => {
    const { page, faults } = await open();
    let pending = 2;
    const news = 'retry: 300\n\nevent: bike\ndata: {"bikeId":"b1"}\n\n';
    await page.route('**/api/events', (route) => route.fulfill({ contentType: 'text/event-stream', body: news }));
    await page.route('**/api/bikes/b1?events=false', async (route) => {
      const answer = await (await route.fetch()).json();
      await route.fulfill({ json: { ...answer, pending, staleReason: pending > 0 ? why : null } });
    });
    await page.goto('/bikes/b1');
    await loaded(page);
    const step = page.getByRole('region', { name: 'Next step' });
    expect(await step.getByRole('heading', { level: 2 }).textContent()).toBe('Wait');
    expect(await step.textContent()).toContain(why);
    expect(await step.locator('dt, button').count()).toBe(0);
    const cautions = await step.locator('.cautions').textContent();
    expect(cautions).toMatch(/^Before you/);
    expect(await seriousFindings(page)).toEqual([]);
    pending = 0;
    await step.getByText('Then check').waitFor({ timeout: 15_000 });
    expect(await step.getByRole('heading', { level: 2 }).textContent()).not.toBe('Wait');
    expect(await step.locator('.cautions').textContent()).toBe(cautions);
    expect(faults).toEqual([]);
    await page.unrouteAll({ behavior: 'ignoreErrors' });
    await page.context().close();
  });
});
