import { expect, it } from 'vitest';
import { browserPath, loaded } from './browser.ts';
import { openMadeUp } from './made-up/open-made-up.ts';

const open = openMadeUp();

it.skipIf(!browserPath)(
  'the workshop list has a box to tick on paper for each bike that asks for work, and no other',
  async () => {
    const { page, faults } = await open();
    await page.goto('/workshop');
    await loaded(page);
    await page.emulateMedia({ media: 'print' });
    const rows = await page.locator('.workshop-table tbody tr').evaluateAll((all) =>
      all.map((row) => {
        const box = getComputedStyle(row.querySelector('.workshop-done') as Element, '::before');
        const drawn =
          box.content !== 'none' && Number.parseFloat(box.borderTopWidth) > 0 && Number.parseFloat(box.width) > 8;
        return { asks: row.matches('.is-service, .is-watch'), drawn };
      }),
    );
    expect(new Set(rows.map(({ asks }) => asks))).toEqual(new Set([true, false]));
    for (const { asks, drawn } of rows) expect(drawn).toBe(asks);
    await page.emulateMedia({ media: 'screen' });
    await page.setViewportSize({ width: 390, height: 844 });
    const asking = rows.filter(({ asks }) => asks).length;
    expect(await page.locator('.workshop-done:visible').count()).toBe(asking);
    const boxes = await page.locator('.workshop-done.is-open').evaluateAll((cells) =>
      cells.map((cell) => {
        const [box, word] = ['::before', '::after'].map((part) => getComputedStyle(cell, part));
        return [Number.parseFloat(box.width) > 8 && Number.parseFloat(box.borderTopWidth) > 0, word.content];
      }),
    );
    expect(boxes).toEqual(Array(asking).fill([true, '"Done"']));
    expect(faults).toEqual([]);
    await page.context().close();
  },
);
