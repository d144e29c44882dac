import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { browserPath, loaded, sidewaysPx } from './browser.ts';
import { openMadeUp } from './made-up/open-made-up.ts';

describe.skipIf(!browserPath)('the list of bikes', () => {
  const open = openMadeUp();

  it('is sorted as picked, and goes to paper and into a file in that order', async () => {
    const { page, faults } = await open({ width: 'desktop' });
    await page.goto('/');
    await loaded(page);
    const names = () => page.locator('.rack-row h2').allTextContents();
    const byNeed = await names();
    const sorted = [...byNeed].sort(new Intl.Collator('en', { numeric: true }).compare);
    expect(byNeed).not.toEqual(sorted);
    await page.getByLabel('Order').selectOption('name');
    expect(await names()).toEqual(sorted);
    await page.reload();
    await loaded(page);
    expect(await names()).toEqual(sorted);

    await page.getByRole('link', { name: 'Workshop list' }).click();
    await page.getByRole('heading', { level: 1, name: 'Workshop list' }).waitFor();
    expect(await page.locator('tbody th a').allTextContents()).toEqual(sorted);
    expect(await page.locator('.workshop header').textContent()).toContain('In order of name.');
    const paper = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
    expect(paper.match(/\/Type\s*\/Page\b(?!s)/g)?.length).toBe(1);
    const [file] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save as CSV' }).click(),
    ]);
    const rows = readFileSync(await file.path(), 'utf8')
      .trimEnd()
      .split('\r\n')
      .slice(1);
    expect(rows.map((row) => sorted.findIndex((name) => row.includes(name)))).toEqual(sorted.map((_, i) => i));
    await page.getByRole('link', { name: 'All bikes' }).click();
    await loaded(page);
    expect(await names()).toEqual(sorted);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('goes to paper with the part to see to in bold, what to do about it plain, and long names in lines no taller than the rest', async () => {
    const { page, faults } = await open();
    await page.route('**/api/bikes', async (route) => {
      const answer = await (await route.fetch()).json();
      for (const { bike } of answer.bikes) bike.name = 'The spare bike of the guides at the upper hut';
      await route.fulfill({ json: answer });
    });
    await page.goto('/workshop');
    await page.locator('.workshop header', { hasText: 'What can hurt stands first, then' }).waitFor();
    const work = page.locator('tr.is-service .workshop-work').first();
    await work.waitFor();
    expect(await work.textContent()).toBe('Cable tension: Turn the barrel adjuster one click anticlockwise.');
    expect(await work.locator('strong').textContent()).toBe('Cable tension:');
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: 703, height: 1047 });
    const weight = (part: Element): number => Number(getComputedStyle(part).fontWeight);
    expect(await work.evaluate(weight)).toBe(400);
    const lettersPx = await work.evaluate((part) => Number.parseFloat(getComputedStyle(part).fontSize));
    expect(lettersPx).toBeGreaterThan(11.3);
    expect(await work.locator('strong').evaluate(weight)).toBeGreaterThan(500);
    const name = page.locator('tbody th').first();
    const perLine = await name.evaluate((cell) => {
      const words = document.createRange();
      words.selectNodeContents(cell.querySelector('a')!);
      const lines = new Set([...words.getClientRects()].map(({ top }) => Math.round(top))).size;
      return { lines, linePx: words.getBoundingClientRect().height / lines };
    });
    expect(perLine.lines).toBeGreaterThan(2);
    const linePx = await work.evaluate((part) => Number.parseFloat(getComputedStyle(part).lineHeight));
    expect(perLine.linePx).toBeLessThan(1.2 * linePx);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('goes to paper with those that need hands alone where that is picked, says how many it leaves out, and that it leaves the samples out', async () => {
    const { page, faults } = await open({ width: 'phone' });
    await page.route('**/api/bikes', async (route) => {
      const answer = await (await route.fetch()).json();
      // its step is about a part, though it is only to be watched
      const watched = answer.bikes.find(({ id }: { id: string }) => id === 'b2');
      Object.assign(watched, { work: 'Have the hanger checked.', workPart: 'hanger' });
      answer.bikes.find(({ id }: { id: string }) => id === 'b4').sample = true;
      await route.fulfill({ json: answer });
    });
    await page.goto('/workshop');
    const rows = page.locator('tbody tr');
    await rows.first().waitFor();
    const all = await rows.count();
    const needy = await page.locator('tbody tr:is(.is-service, .is-watch)').count();
    expect([needy, all]).toEqual([2, 3]);
    await page.getByText('3 bikes, without the 1 sample bike').waitFor();
    const only = page.getByRole('button', { name: 'Only what needs hands' });
    await only.click();
    expect(await page.locator('tbody th a').allTextContents()).toEqual(['Larch hut hardtail', 'Saddle pass tourer']);
    await page.getByText(`Only what needs hands: ${needy} of ${all} bikes`).waitFor();
    expect(await sidewaysPx(page)).toBe(0);
    await page.reload();
    await rows.first().waitFor();
    expect(await rows.count()).toBe(needy);
    await only.click();
    expect(await rows.count()).toBe(all);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('gives a sheet with boxes to tick only to a bike that has work to do', async () => {
    const { page } = await open();
    const boxes = async (word: 'fine' | 'service', namesCause: boolean): Promise<number> => {
      await page.route('**/api/bikes/b1/sheet', async (route) => {
        const sheet = await (await route.fetch()).json();
        Object.assign(sheet.state, { word });
        Object.assign(sheet.suggestion, { namesCause, inspectFirst: false });
        await route.fulfill({ json: sheet });
      });
      await page.goto('/bikes/b1/sheet');
      await page.locator('.tasks li').first().waitFor();
      const count = await page.locator('.tasks .task').count();
      await page.unrouteAll();
      return count;
    };
    expect(await boxes('fine', false)).toBe(0);
    expect(await boxes('service', false)).toBeGreaterThan(0);
    expect(await boxes('fine', true)).toBeGreaterThan(0);
    await page.context().close();
  });

  it('leads to rides whose events stand on a phone in the order in which Tab goes', async () => {
    const { page } = await open({ width: 'phone' });
    await page.goto('/rides/b1r2');
    await loaded(page);
    const top = async (selector: string): Promise<number> => (await page.locator(selector).boundingBox())!.y;
    expect(await top('.event-column')).toBeLessThan(await top('.event-panel'));
    await page.context().close();
  });
});
