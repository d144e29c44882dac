import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { htmlReport } from '../../src/report/html/html-report.ts';
import { sampleReport } from '../report/sample-report.ts';
import { browserPath, openBrowser, sidewaysPx, widths } from './browser.ts';

/** Whether each drawing that is shown is the narrow one, and all words in it that lie beyond its edges. */
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
      })),
  );

describe.skipIf(!browserPath)('the report as a page of its own', () => {
  const report = sampleReport();
  const drawing = (isNarrow: boolean) => Array(4 + report.rides.length).fill({ isNarrow, cutOff: [] });
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
