import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { browserPath, loaded } from './browser.ts';
import { openMadeUp } from './made-up/open-made-up.ts';

/** Swipes a finger from the middle of the timeline, px. */
async function swipe(page: Page, alongPx: number, acrossPx: number): Promise<void> {
  const { x, y, width, height } = (await page.locator('.timeline-plot').boundingBox())!;
  const session = await page.context().newCDPSession(page);
  const touch = async (type: 'touchStart' | 'touchMove' | 'touchEnd', share: number): Promise<void> => {
    const point = { x: x + width / 2 + share * alongPx, y: y + height / 2 + share * acrossPx };
    await session.send('Input.dispatchTouchEvent', { type, touchPoints: type === 'touchEnd' ? [] : [point] });
    await page.waitForTimeout(16);
  };
  await touch('touchStart', 0);
  for (let step = 1; step <= 12; step++) await touch('touchMove', step / 12);
  await touch('touchEnd', 1);
  await session.detach();
}

const scrolledPx = (page: Page): Promise<number> => page.evaluate(() => window.scrollY);
const drawn = (page: Page): Promise<string> =>
  page.locator('.timeline-plot canvas').evaluate((canvas: HTMLCanvasElement) => canvas.toDataURL());

describe.skipIf(!browserPath)('a finger on the timeline', () => {
  const open = openMadeUp();

  it('moves the page where it swipes up or down, and the ride where it swipes along', async () => {
    const { page, faults } = await open({ width: 'phone', touch: true });
    await page.goto('/rides/b1r2');
    await loaded(page);
    await page.getByRole('button', { name: 'Closer' }).tap();
    await page.getByRole('button', { name: 'Closer' }).tap();
    const plot = page.locator('.timeline-plot');
    await plot.evaluate((one) => one.scrollIntoView({ block: 'center' }));
    await page.waitForTimeout(200);

    const [before, at] = [await drawn(page), await scrolledPx(page)];
    await swipe(page, 0, -200);
    await expect.poll(() => scrolledPx(page)).toBeGreaterThan(at + 100);
    expect(await drawn(page)).toBe(before);

    await plot.evaluate((one) => one.scrollIntoView({ block: 'center' }));
    await page.waitForTimeout(200);
    const still = await scrolledPx(page);
    await swipe(page, -120, 0);
    await expect.poll(() => drawn(page)).not.toBe(before);
    expect(await scrolledPx(page)).toBe(still);
    expect(faults).toEqual([]);
    await page.context().close();
  });
});
