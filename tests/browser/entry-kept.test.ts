import { describe, expect, it } from 'vitest';
import { browserPath, loaded } from './browser.ts';
import { openMadeUp } from './made-up/open-made-up.ts';

describe.skipIf(!browserPath)('an entry that is being filled in', () => {
  const open = openMadeUp();

  it('is not emptied by the next step’s button without asking, as an untouched form is', async () => {
    const { page, faults } = await open();
    await page.goto('/bikes/b1');
    await loaded(page);
    const logThis = page.getByRole('button', { name: 'Done? Log it' });
    const form = page.getByRole('form', { name: 'Log an adjustment' });
    const question = page.getByRole('dialog');
    await logThis.click();
    await form.waitFor();
    await logThis.click();
    expect(await question.count()).toBe(0);
    await form.getByLabel('Note').fill('half a thought');
    await logThis.click();
    await question.getByRole('button', { name: 'Keep what is filled in' }).click();
    expect(await form.getByLabel('Note').inputValue()).toBe('half a thought');
    expect(await page.evaluate(() => document.activeElement?.getAttribute('name'))).toBe('parameter');
    await logThis.click();
    await question.getByRole('button', { name: 'Begin a new one' }).click();
    await expect.poll(() => form.getByLabel('Note').inputValue()).toBe('');
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it.each([390, 1280])('has all its fields within its frame, %i px wide', async (width) => {
    const { page } = await open();
    await page.setViewportSize({ width, height: 900 });
    await page.goto('/bikes/b1');
    await loaded(page);
    await page.getByRole('button', { name: 'Done? Log it' }).click();
    const form = page.getByRole('form', { name: 'Log an adjustment' });
    await form.waitFor();
    const over = await form.evaluate((frame) => {
      const right = frame.getBoundingClientRect().right;
      const fields = [...frame.querySelectorAll('input, select')];
      return fields.filter((field) => field.getBoundingClientRect().right > right).map((field) => field.id);
    });
    expect(over).toEqual([]);
    await page.context().close();
  });
});
