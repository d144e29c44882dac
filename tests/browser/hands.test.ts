import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { browserPath, loaded } from './browser.ts';
import { openMadeUp } from './made-up/open-made-up.ts';

/** Least height of what is touched, CSS px (WCAG 2.2, success criterion 2.5.8). */
const LEAST_TARGET_PX = 24;

/** Label of the field, or words of the button, that has the focus. */
const focused = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const active = document.activeElement as HTMLSelectElement | null;
    return (active?.labels?.[0]?.textContent ?? active?.getAttribute('aria-label') ?? active?.textContent ?? '').trim();
  });

describe.skipIf(!browserPath)('the page by keyboard alone', () => {
  const open = openMadeUp();

  for (const opener of ['Log an adjustment', 'Done? Log it'])
    it(`has the focus in the form after "${opener}", and Escape gives it back`, async () => {
      const { page, faults } = await open();
      await page.goto('/bikes/b1');
      await loaded(page);
      await page.getByRole('button', { name: opener }).focus();
      await page.keyboard.press('Enter');
      const form = page.getByRole('form', { name: 'Log an adjustment' });
      await expect.poll(() => focused(page)).toBe('What was done');
      await form.getByLabel('Note').focus();
      await page.keyboard.press('Escape');
      expect(await form.count()).toBe(0);
      expect(await focused(page)).toBe(opener);
      expect(faults).toEqual([]);
      await page.context().close();
    });

  it('changes an entry and the drivetrain in forms that Escape leaves', async () => {
    const { page, faults } = await open();
    await page.goto('/bikes/b1');
    await loaded(page);
    for (const [opener, form, field] of [
      [/^Edit Cable tension/, 'Change the adjustment', 'What was done'],
      [/^Change$/, 'Drivetrain', 'Name of the bike'],
    ] as const) {
      const button = page.getByRole('button', { name: opener });
      await button.focus();
      await page.keyboard.press('Enter');
      await page.getByRole('form', { name: form }).waitFor();
      expect(await focused(page)).toBe(field);
      await page.keyboard.press('Escape');
      expect(await page.getByRole('form', { name: form }).count()).toBe(0);
      expect(await focused(page)).toMatch(opener);
    }
    expect(faults).toEqual([]);
    await page.context().close();
  });
});

describe.skipIf(!browserPath)('an event by keyboard alone', () => {
  const open = openMadeUp();

  it('is left by Escape for where it was opened, the timeline or its row in the list', async () => {
    const { page, faults } = await open();
    await page.goto('/rides/b4r0');
    await loaded(page);
    await page.getByRole('application', { name: /^Timeline/ }).focus();
    for (const key of ['.', 'Enter']) await page.keyboard.press(key);
    const event = await focused(page);
    expect(event).not.toMatch(/^Timeline/);
    await page.keyboard.press('Escape');
    expect(await focused(page)).toMatch(/^Timeline of the ride/);

    const row = page.locator('.event-row').nth(2);
    await row.focus();
    await page.keyboard.press('Enter');
    // a key that a chart within has a use for is not taken from it
    await page.getByRole('application', { name: /^The thirty seconds/ }).focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Escape');
    expect(await focused(page)).toMatch(/^The thirty seconds/);
    await page.keyboard.press('Escape');
    expect(await focused(page)).toBe((await row.textContent())?.trim());
    expect(faults).toEqual([]);
    await page.context().close();
  });
});

describe.skipIf(!browserPath)('the page by touch', () => {
  const open = openMadeUp();

  it('has no way to another page that is lower than a fingertip can hit', async () => {
    const { page, faults } = await open({ width: 'phone', touch: true });
    for (const [address, ways] of [
      ['/bikes/b1', '.crumb, .rides th a'],
      ['/workshop', '.crumb, .workshop-table th a'],
    ] as const) {
      await page.goto(address);
      await loaded(page);
      const heights = await page
        .locator(ways)
        .evaluateAll((links) => links.map((link) => link.getBoundingClientRect().height));
      expect(heights.length, address).toBeGreaterThan(1);
      expect(Math.min(...heights), address).toBeGreaterThanOrEqual(LEAST_TARGET_PX);
    }
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('reads the ride where it is touched, as the words under the timeline say', async () => {
    const { page, faults } = await open({ width: 'phone', touch: true });
    await page.goto('/rides/b1r2');
    await loaded(page);
    const reading = page.locator('.timeline-reading');
    const hint = await reading.textContent();
    expect(hint).toMatch(/^Touch the ride/);
    expect(hint).not.toMatch(/click|scroll|mouse/i);
    for (const name of ['Closer', 'Wider'])
      expect(await page.locator('.timeline-tools').getByRole('button', { name }).count(), name).toBe(1);
    const plot = page.locator('.timeline-plot');
    await plot.scrollIntoViewIfNeeded();
    const { x, y, width, height } = (await plot.boundingBox())!;
    await page.touchscreen.tap(x + width / 2, y + height / 2);
    await expect.poll(() => reading.textContent()).toMatch(/Speed/);
    expect(faults).toEqual([]);
    await page.context().close();
  });
});
