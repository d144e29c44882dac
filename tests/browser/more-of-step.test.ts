import { describe, expect, it } from 'vitest';
import { browserPath, loaded, seriousFindings, sidewaysPx } from './browser.ts';
import { openMadeUp } from './made-up/open-made-up.ts';

describe.skipIf(!browserPath)('a step with several parts', () => {
  const open = openMadeUp();

  it.each(['phone', 'desktop'] as const)(
    'is logged part by part, at the moment of the first, on a %s',
    async (width) => {
      const { page, faults } = await open({ width });
      const sent: { at: string; parameter: string; amount: number | null }[] = [];
      await page.route('**/adjustments', (route) => {
        if (route.request().method() === 'POST') sent.push(route.request().postDataJSON());
        return route.fulfill({ status: 201, json: {} });
      });
      await page.route('**/api/bikes/b1?events=false', async (route) => {
        const answer = await (await route.fetch()).json();
        const { suggestion } = answer.report.diagnosis;
        suggestion.steps = ['Have the hanger gauged.', 'Look over cable and housing, then add cable tension.'];
        const adjustmentsLog = sent.map((entry, i) => ({ ...entry, id: `new${i}`, version: '1' }));
        await route.fulfill({ json: { ...answer, adjustmentsLog } });
      });
      await page.goto('/bikes/b1');
      await loaded(page);
      await page.getByRole('button', { name: 'Done? Log it' }).click();
      const form = page.getByRole('form', { name: 'Log an adjustment' });
      await form.getByLabel('Amount in clicks').fill('2');
      await form.getByLabel('When').fill('2026-05-04T10:15');
      await form.getByRole('button', { name: 'Log it' }).click();
      const more = page.getByRole('group', { name: 'More of the step' });
      await more.waitFor();
      const offered = () => more.getByRole('button').allTextContents();
      expect(await offered()).toEqual(['Derailleur hanger', 'Cable and housing', 'That was all']);
      expect(await seriousFindings(page)).toEqual([]);
      expect(await sidewaysPx(page)).toBe(0);
      await more.getByRole('button', { name: 'Cable and housing' }).click();
      await form.getByLabel('Changed or looked at').selectOption('looked');
      expect(await more.isVisible()).toBe(false);
      await form.getByRole('button', { name: 'Cancel' }).click();
      expect(
        await more.getByRole('button', { name: 'Cable and housing' }).evaluate((one) => one === document.activeElement),
      ).toBe(true);
      await more.getByRole('button', { name: 'Cable and housing' }).click();
      await form.getByLabel('Changed or looked at').selectOption('looked');
      await form.getByRole('button', { name: 'Log it' }).click();
      await expect.poll(offered).toEqual(['Derailleur hanger', 'That was all']);
      await more.getByRole('button', { name: 'That was all' }).click();
      expect(await more.count()).toBe(0);
      const at = '2026-05-04T08:15:00.000Z';
      expect(sent).toMatchObject([
        { parameter: 'cable-tension', amount: 2, at },
        { parameter: 'cable-and-housing', amount: 0, at },
      ]);
      expect(faults).toEqual([]);
      await page.unrouteAll({ behavior: 'ignoreErrors' });
      await page.context().close();
    },
  );
});
