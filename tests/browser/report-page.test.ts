import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { htmlReport } from '../../src/report/html/html-report.ts';
import { sampleReport } from '../report/sample-report.ts';
import { browserPath, openBrowser, sidewaysPx, widths } from './browser.ts';

/** Whether each drawing that is shown is the narrow one, all words in it that lie beyond its edges, and names of ticks that touch the next one's. */
const shown = (page: Page) =>
  page.evaluate(() =>
    [...document.querySelectorAll('svg.chart')]
      .map((svg) => ({ svg, edge: svg.getBoundingClientRect() }))
      .filter(({ edge }) => edge.width > 0)
      .map(({ svg, edge }) => ({
        isNarrow: svg.classList.contains('is-narrow'),
        cutOff: [...svg.querySelectorAll('text')]
          .filter((text) => {
            const own = text.getBoundingClientRect();
            return own.left < edge.left - 1 || own.right > edge.right + 1;
          })
          .map((text) => text.textContent),
        touching: [...svg.querySelectorAll('.tick + .tick text')].filter((text) => {
          const [before, own] = [text.parentElement!.previousElementSibling!.querySelector('text')!, text].map((one) =>
            one.getBoundingClientRect(),
          );
          return (
            before.right > own.left && own.right > before.left && before.bottom > own.top && own.bottom > before.top
          );
        }).length,
      })),
  );

describe.skipIf(!browserPath)('the report as a page of its own', () => {
  const report = sampleReport();
  const drawing = (isNarrow: boolean) => Array(5 + report.rides.length).fill({ isNarrow, cutOff: [], touching: 0 });
  let browser: Browser;
  beforeAll(async () => {
    browser = await openBrowser();
  });
  afterAll(() => browser?.close());

  for (const width of ['phone', 'desktop'] as const)
    it(`shows every chart whole on a ${width}, and wide on paper`, async () => {
      const page = await browser.newPage({ viewport: widths[width] });
      await page.setContent(htmlReport(report));
      expect(await sidewaysPx(page)).toBe(0);
      expect(await shown(page)).toEqual(drawing(width === 'phone'));
      await page.emulateMedia({ media: 'print' });
      expect(await shown(page)).toEqual(drawing(false));
      await page.close();
    });
});
