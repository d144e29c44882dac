import { readFile } from 'node:fs/promises';
import { parse } from 'csv-parse/sync';
import type { Download, Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { browserPath, loaded } from './browser.ts';
import { openMadeUp } from './made-up/open-made-up.ts';

const textOf = async (download: Download): Promise<string> => readFile(await download.path(), 'utf8');

async function saved(page: Page, click: () => Promise<void>): Promise<Download> {
  const [download] = await Promise.all([page.waitForEvent('download'), click()]);
  return download;
}

/** Long tasks seen by the browser while `work` ran, ms. */
async function longestFrameMs(page: Page, work: () => Promise<void>): Promise<number> {
  await page.evaluate(() => {
    const seen = { worst: 0, last: performance.now(), on: true };
    (window as unknown as { seen: typeof seen }).seen = seen;
    const tick = (now: number): void => {
      seen.worst = Math.max(seen.worst, now - seen.last);
      seen.last = now;
      if (seen.on) requestAnimationFrame(tick);
    };
    requestAnimationFrame(tick);
  });
  await work();
  return page.evaluate(() => {
    const { seen } = window as unknown as { seen: { worst: number; on: boolean } };
    seen.on = false;
    return seen.worst;
  });
}

describe.skipIf(!browserPath)('charts', () => {
  const open = openMadeUp();

  it('are read by pointer and by keyboard, and heard', async () => {
    const { page, faults } = await open();
    await page.goto('/bikes/b1');
    await loaded(page);
    const plot = page.getByRole('application', { name: /^Trouble by cog/ });
    await plot.locator('.mark').nth(4).hover();
    await plot.locator('.tip').getByText('judged shifts').waitFor();
    await plot.focus();
    await page.keyboard.press('Home');
    const first = await page.getByRole('status').last().textContent();
    await page.keyboard.press('ArrowRight');
    const second = await page.getByRole('status').last().textContent();
    expect(first).toMatch(/^Onto \d+ teeth/);
    expect(second).toMatch(/^Onto \d+ teeth/);
    expect(second).not.toBe(first);
    await page.keyboard.press('Escape');
    expect(await plot.locator('.tip').isVisible()).toBe(false);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('are saved as a picture that stands alone and as data, and shown as a table', async () => {
    const { page, faults } = await open({ dark: true });
    await page.goto('/bikes/b1');
    await loaded(page);
    const figure = page.locator('figure', { hasText: 'Trouble by cog and direction' });
    const picture = await textOf(await saved(page, () => figure.getByRole('button', { name: 'Save picture' }).click()));
    expect(picture).toContain('<title>Trouble by cog and direction</title>');
    expect(picture).not.toMatch(/class=|var\(|light-dark/);
    expect(picture).toMatch(/fill="rgb/);
    const rows = parse(
      await textOf(await saved(page, () => figure.getByRole('button', { name: 'Save data' }).click())),
    );
    expect(rows[0].slice(0, 3)).toEqual(['teeth', 'direction', 'judged shifts']);
    expect(rows.length).toBe(25);
    await figure.getByRole('button', { name: 'Show as table' }).click();
    expect(await figure.locator('tbody tr').count()).toBe(24);
    await page.getByRole('button', { name: 'Before and after' }).click();
    await page.getByRole('heading', { name: /^Before and after/ }).waitFor();
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('keep the open event in view while the timeline comes closer', async () => {
    const { page, faults } = await open();
    await page.goto('/rides/b1r0');
    await loaded(page);
    const row = page.locator('.event-row').last();
    await row.click();
    const secondsOf = (clock: string): number => clock.split(':').reduce((sum, part) => sum * 60 + Number(part), 0);
    const event = secondsOf((await row.locator('.event-time').textContent()) ?? '');
    for (let i = 0; i < 5; i++) await page.getByRole('button', { name: 'Closer' }).click();
    const picture = await textOf(
      await saved(page, () => page.locator('.timeline').getByRole('button', { name: 'Save picture' }).click()),
    );
    const ticks = [...picture.matchAll(/>(\d+:[\d:]+)</g)].map(([, clock]) => secondsOf(clock));
    const apartS = ticks[1] - ticks[0];
    expect(apartS).toBeLessThan(600);
    expect(
      ticks.some((tick) => Math.abs(tick - event) <= apartS),
      `${event} among ${ticks}`,
    ).toBe(true);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('follow a ten-hour ride by wheel, drag and keyboard, and open an event from its mark', async () => {
    const { page, faults } = await open();
    await page.goto('/rides/b4r0');
    await loaded(page);
    const timeline = page.getByRole('application', { name: /^Timeline/ });
    await timeline.scrollIntoViewIfNeeded();
    const box = (await timeline.boundingBox())!;
    const centre = { x: box.x + box.width / 2, y: box.y + box.height / 3 };
    const worstMs = await longestFrameMs(page, async () => {
      await page.mouse.click(centre.x, centre.y);
      for (let i = 0; i < 12; i++) await page.mouse.wheel(0, -240);
      await page.mouse.down();
      for (let i = 1; i <= 15; i++) await page.mouse.move(centre.x - i * 12, centre.y);
      await page.mouse.up();
      await page.keyboard.press('0');
    });
    // No promise of speed (that is measured by the bench), only that nothing hangs.
    expect(worstMs).toBeLessThan(1500);
    await timeline.focus();
    await page.keyboard.press('.');
    const heard = await page.getByRole('status').last().textContent();
    expect(heard).toMatch(/, at \d/);
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Why it was judged so' }).waitFor();
    expect(page.url()).toContain('event=');
    await page.getByRole('application', { name: /^The thirty seconds/ }).waitFor();
    const picture = await textOf(
      await saved(page, () => page.locator('.timeline').getByRole('button', { name: 'Save picture' }).click()),
    );
    expect(picture).toContain('<title>Timeline of the ride</title>');
    expect(picture.length).toBeLessThan(2_000_000);
    const rows = parse(
      await textOf(
        await saved(page, () => page.locator('.timeline').getByRole('button', { name: 'Save data' }).click()),
      ),
    );
    expect(rows.length).toBe(36_001);
    expect(faults).toEqual([]);
    await page.context().close();
  });
});
