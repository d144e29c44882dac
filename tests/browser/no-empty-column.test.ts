import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { browserPath, loaded, sidewaysPx } from './browser.ts';
import { openMadeUp } from './made-up/open-made-up.ts';

/** How far the panels of verdict and next step reach below one another where they stand side by side, px; 0 where they do not. */
const emptyBelowPx = (page: Page): Promise<number> =>
  page.evaluate(() => {
    const [words, step] = ['.verdict-words', '.tag'].map((part) =>
      document.querySelector(part)!.getBoundingClientRect(),
    );
    const sideBySide = words.top < step.bottom && step.top < words.bottom;
    return sideBySide ? Math.abs(words.bottom - step.bottom) : 0;
  });

describe.skipIf(!browserPath)('verdict and next step', () => {
  const open = openMadeUp();
  const long = 'Turn the cranks by hand, shift to and fro, and see whether both directions run alike. '.repeat(9);
  const cases = {
    'a short verdict beside a long step': { evidence: [], cautions: Array(6).fill(long.slice(0, 180)), start: long },
    'a long verdict beside a short step': { evidence: Array(9).fill(long.slice(0, 180)), cautions: [], start: 'Look.' },
  };

  for (const [name, { evidence, cautions, start }] of Object.entries(cases))
    it(`leave no column empty: ${name}`, async () => {
      const { page, faults } = await open();
      await page.route('**/api/bikes/b1?events=false', async (route) => {
        const answer = await (await route.fetch()).json();
        const { suggestion, causes } = answer.report.diagnosis;
        Object.assign(suggestion, { cautions, start });
        causes[0].evidence = evidence;
        await route.fulfill({ json: answer });
      });
      await page.goto('/bikes/b1');
      await loaded(page);
      expect(await emptyBelowPx(page)).toBeLessThan(120);
      expect(await sidewaysPx(page)).toBe(0);
      expect(faults).toEqual([]);
      await page.context().close();
    });

  it('stand with their parts side by side where there is room, in the order in which they are read', async () => {
    const boxes = async (width: 'desktop' | 'phone') => {
      const { page } = await open({ width });
      await page.goto('/bikes/b1');
      await loaded(page);
      const found = await page.evaluate(() =>
        ['.verdict-said', '.verdict-weighed', '.tag-step', '.tag .cautions'].map((part) => {
          const { left, top } = document.querySelector(part)!.getBoundingClientRect();
          return { left: Math.round(left), top: Math.round(top) };
        }),
      );
      await page.context().close();
      return found;
    };
    const [said, weighed, step, cautions] = await boxes('desktop');
    expect([weighed.top - said.top, cautions.top - step.top]).toEqual([0, 0]);
    expect(weighed.left).toBeGreaterThan(said.left);
    expect(cautions.left).toBeGreaterThan(step.left);
    const below = await boxes('phone');
    expect(below.map(({ top }) => top)).toEqual(below.map(({ top }) => top).sort((a, b) => a - b));
    expect(new Set(below.map(({ left }) => left)).size).toBe(2);
  });
});
