import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import type { KeyedRideReport, RideColumns } from '../../web/api/answers.ts';
import { browserPath, loaded } from './browser.ts';
import { openMadeUp } from './made-up/open-made-up.ts';

/** The server's news of a ride, sent again and again. */
const news = 'retry: 300\n\nevent: ride\ndata: {"rideId":"b1r2","bikeId":"b1"}\n\n';

interface Changes {
  readonly report: (report: KeyedRideReport) => void;
  readonly columns?: (columns: RideColumns) => void;
}

/** Opens a ride whose answers are changed as soon as the function returned is called. */
async function openRide(page: Page, { report, columns }: Changes): Promise<() => void> {
  let anew = false;
  await page.route('**/api/events', (route) => route.fulfill({ contentType: 'text/event-stream', body: news }));
  await page.route('**/api/rides/b1r2', async (route) => {
    const answer = await (await route.fetch()).json();
    if (anew) report(answer.report);
    await route.fulfill({ json: answer });
  });
  await page.route('**/api/rides/b1r2/columns', async (route) => {
    const answer = await (await route.fetch()).json();
    if (anew) columns?.(answer);
    await route.fulfill({ json: answer });
  });
  await page.goto('/rides/b1r2?event=drop-4000');
  await loaded(page);
  return () => {
    anew = true;
  };
}

describe.skipIf(!browserPath)('a ride that is open while it is worked through again', () => {
  const open = openMadeUp();

  it('shows timeline, moment and remarks of the new analysis with its events', async () => {
    const { page, faults } = await open();
    const workAnew = await openRide(page, {
      report: (report) => {
        report.warnings = [{ code: 'rollout-differs', message: 'Another rollout than before.' }];
      },
      columns: (columns) => {
        columns.cadenceRpm = columns.cadenceRpm.map(() => 61);
      },
    });
    workAnew();
    await page.getByText('Another rollout than before.').waitFor({ state: 'attached', timeout: 15_000 });
    await loaded(page);
    await page.locator('.event-panel').getByRole('button', { name: 'Show as table' }).click();
    const cadences = await page.locator('.event-panel tbody tr > :nth-child(6)').allTextContents();
    expect(new Set(cadences)).toEqual(new Set(['61']));
    expect(new URL(page.url()).searchParams.get('event')).toBe('drop-4000');
    expect(faults).toEqual([]);
    await page.unrouteAll({ behavior: 'ignoreErrors' });
    await page.context().close();
  });

  it('is opened anew after it waited for an analysis, though that found the same', async () => {
    const { page, faults } = await open();
    await openRide(page, { report: () => {} });
    let answers = 0;
    await page.route('**/api/rides/b1r2', async (route) => {
      const answer = await (await route.fetch()).json();
      await route.fulfill({ json: { ...answer, status: ++answers === 1 ? 'queued' : 'done' } });
    });
    await page.evaluate(() => document.querySelector('.ride-timeline')!.setAttribute('data-kept', ''));
    await page.locator('.ride-timeline:not([data-kept])').waitFor({ timeout: 15_000 });
    expect(faults).toEqual([]);
    await page.unrouteAll({ behavior: 'ignoreErrors' });
    await page.context().close();
  });

  it('says that it could not be read as soon as that is known, and is shown once it can be', async () => {
    const { page, faults } = await open();
    let status = 'queued';
    await page.route('**/api/events', (route) => route.fulfill({ contentType: 'text/event-stream', body: news }));
    await page.route('**/api/rides/b1r2', async (route) => {
      const answer = await (await route.fetch()).json();
      const error = { code: 'no-records', message: 'It holds no ride records.' };
      const report = status === 'done' ? answer.report : null;
      await route.fulfill({ json: { ...answer, report, status, error: status === 'failed' ? error : null } });
    });
    await page.goto('/rides/b1r2');
    await page.getByRole('heading', { name: 'Still being worked through' }).waitFor();
    status = 'failed';
    await page.getByText('It holds no ride records.').waitFor({ timeout: 15_000 });
    status = 'analysing';
    await page.getByRole('heading', { name: 'Still being worked through' }).waitFor({ timeout: 15_000 });
    status = 'done';
    await page.locator('.ride-timeline').waitFor({ timeout: 15_000 });
    expect(faults).toEqual([]);
    await page.unrouteAll({ behavior: 'ignoreErrors' });
    await page.context().close();
  });

  it('is not opened anew where only a judgement changed', async () => {
    const { page, faults } = await open();
    const judge = await openRide(page, {
      report: (report) => {
        for (const drop of report.chainDrops) drop.verdict = 'confirmed';
      },
    });
    await page.evaluate(() => document.querySelector('.ride-timeline')!.setAttribute('data-kept', ''));
    judge();
    await page.getByText('You said that this happened.').waitFor({ timeout: 15_000 });
    await page.waitForTimeout(1000);
    expect(await page.locator('.ride-timeline[data-kept]').count()).toBe(1);
    expect(faults).toEqual([]);
    await page.unrouteAll({ behavior: 'ignoreErrors' });
    await page.context().close();
  });
});
