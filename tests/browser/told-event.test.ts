import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { withVerdicts } from '../../server/routes/ride-answer.ts';
import type { Judgement } from '../../server/store/judgement-store.ts';
import { browserPath, loaded } from './browser.ts';
import { openMadeUp } from './made-up/open-made-up.ts';

interface Asked {
  readonly method: string;
  readonly path: string;
  readonly body: unknown;
}

/** Opens a made-up ride whose answers follow what is told, as the server works them out. Returns what was asked of it. */
async function openRide(page: Page): Promise<Asked[]> {
  const said = new Map<string, Judgement>();
  const asked: Asked[] = [];
  await page.route('**/api/rides/b1r2', async (route) => {
    const answer = await (await route.fetch()).json();
    const report = withVerdicts(answer.report, [...said.values()]);
    await route.fulfill({ json: { ...answer, report, counts: report.counts } });
  });
  const take = (eventKey: string, request: { method(): string; url(): string; postData(): string | null }): void => {
    const body = JSON.parse(request.postData() ?? 'null');
    asked.push({ method: request.method(), path: new URL(request.url()).pathname, body });
    if (request.method() === 'DELETE') said.delete(eventKey);
    else said.set(eventKey, { eventKey, verdict: 'told', note: '', ...body });
  };
  await page.route(/\/api\/rides\/b1r2\/(told|judgements)\//, async (route) => {
    take(route.request().url().split('/').pop()!, route.request());
    await route.fulfill({ status: 202, json: { jobId: 'b1-1' } });
  });
  await page.goto('/rides/b1r2');
  await loaded(page);
  return asked;
}

describe.skipIf(!browserPath)('what the log of a ride does not show', () => {
  const open = openMadeUp();

  it('is told at a moment touched on the timeline or written down, shown as told, and taken back', async () => {
    const { page, faults } = await open();
    const asked = await openRide(page);
    const lead = page.locator('.lead.is-strong');
    const before = await lead.textContent();
    await page.evaluate(() => document.querySelector('.ride-timeline')!.setAttribute('data-kept', ''));
    await page.getByText('Did the chain come off or skip, and it is not shown?').click();
    const moment = page.getByLabel('When, since the start');
    await page.getByRole('button', { name: 'Add it to this ride' }).click();
    await page.getByText('Write a moment of this ride').waitFor();
    expect(asked).toEqual([]);
    const plot = page.locator('.timeline-plot');
    await plot.scrollIntoViewIfNeeded();
    const { width, height } = (await plot.boundingBox())!;
    await plot.click({ position: { x: width / 2, y: height / 2 } });
    expect(await moment.inputValue()).toMatch(/^\d+:\d\d(:\d\d)?$/);
    await moment.fill('1:00:05');
    expect(await page.getByLabel('Where it went').inputValue()).toBe('unknown');
    await page.getByLabel('Where it went').selectOption({ label: 'Past the largest cog, towards the spokes' });
    await page.getByRole('button', { name: 'Add it to this ride' }).click();
    const row = page.locator('.event-row[aria-current="true"]');
    await row.getByText('told by you').waitFor();
    expect(await row.textContent()).toContain('past the largest cog, towards the spokes1:00:05');
    const panel = page.locator('.event-panel');
    expect(await panel.textContent()).toContain('You told that the chain came off here; the log does not show it.');
    expect(await lead.textContent()).not.toBe(before);
    expect(asked).toMatchObject([{ method: 'PUT', body: { side: 'past-largest' } }]);
    expect(asked[0].path).toMatch(/\/told\/drop-\d+$/);
    await panel.getByRole('button', { name: 'Take it back' }).click();
    await page.getByText('told by you').waitFor({ state: 'detached' });
    expect(await lead.textContent()).toBe(before);
    // telling is no new analysis: the page was not opened anew
    expect(await page.locator('.ride-timeline[data-kept]').count()).toBe(1);
    expect(asked[1]).toMatchObject({ method: 'DELETE', path: asked[0].path.replace('told', 'judgements') });
    expect(faults).toEqual([]);
    await page.unrouteAll({ behavior: 'ignoreErrors' });
    await page.context().close();
  });

  it('asks for no side of a skip', async () => {
    const { page, faults } = await open({ width: 'phone' });
    const asked = await openRide(page);
    await page.getByText('Did the chain come off or skip, and it is not shown?').click();
    await page.getByLabel('What happened').selectOption({ label: 'The chain skipped under load' });
    expect(await page.getByLabel('Where it went').isVisible()).toBe(false);
    await page.getByLabel('When, since the start').fill('20:30');
    await page.getByRole('button', { name: 'Add it to this ride' }).click();
    await page.locator('.event-row').getByText('told by you').waitFor();
    expect(asked).toMatchObject([{ method: 'PUT', body: {} }]);
    expect(asked[0].path).toMatch(/\/told\/skip-\d+$/);
    expect(faults).toEqual([]);
    await page.unrouteAll({ behavior: 'ignoreErrors' });
    await page.context().close();
  });
});
