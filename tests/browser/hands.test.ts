import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { browserPath, loaded } from './browser.ts';
import { openMadeUp } from './made-up/open-made-up.ts';

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

describe.skipIf(!browserPath)('the page by touch', () => {
  const open = openMadeUp();

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
