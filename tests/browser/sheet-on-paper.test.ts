import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import type { SheetData } from '../../web/api/answers.ts';
import { browserPath, type Width } from './browser.ts';
import { openMadeUp } from './made-up/open-made-up.ts';

/** Smaller letters are hard to read at a bike on the stand. */
const SMALLEST_PT = 8.5;
const PT_PER_PX = 0.75;

const USUAL_CAUTIONS = 6;
const MANY_CAUTIONS = 17;

const sentence = 'See how far the screw lets the derailleur go, and stop there before the chain does. ';
const said = (times: number): string => sentence.repeat(times).trim();

/** A sheet on which each part says as much as the fullest of them do, with so many cautions. */
function full(sheet: SheetData, cautions: number): void {
  const { suggestion } = sheet;
  if (!suggestion) throw new Error('the made-up bike has nothing to do');
  Object.assign(sheet.state, { dangers: [said(3), said(1)] });
  Object.assign(suggestion, {
    steps: [said(3), said(2), said(1)],
    start: said(1),
    verify: said(3),
    cautions: Array(cautions).fill(said(1)),
  });
  sheet.verdict = said(1);
  sheet.causes[0].evidence = Array(6).fill(said(1));
  sheet.lastAdjustments = Array(9).fill(sheet.lastAdjustments[0]);
}

/** Pages the sheet takes as the page itself asks, on A4, and on what a printer takes that was told nothing. */
async function pagesOf(page: Page): Promise<number[]> {
  const pages: number[] = [];
  for (const options of [{ preferCSSPageSize: true }, { format: 'A4' }, {}])
    pages.push((await page.pdf(options)).toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0);
  return pages;
}

/** The smallest letters of what is shown, pt, as large as they come out. */
const smallestPt = async (page: Page): Promise<number> =>
  PT_PER_PX *
  (await page.locator('.sheet *').evaluateAll((parts) =>
    Math.min(
      ...parts
        .filter((part) => part.getClientRects().length > 0)
        .filter(({ childNodes }) => [...childNodes].some((node) => node.nodeType === 3 && node.textContent?.trim()))
        .map((part) => {
          const drawing = part.closest('svg');
          const scale = drawing ? drawing.getBoundingClientRect().width / drawing.viewBox.baseVal.width : 1;
          return scale * Number.parseFloat(getComputedStyle(part).fontSize);
        }),
    ),
  ));

describe.skipIf(!browserPath)('the service sheet on paper', () => {
  const open = openMadeUp();

  async function printed(width: Width, change: (sheet: SheetData) => void) {
    const { page, faults } = await open({ width });
    await page.route('**/api/bikes/b1/sheet', async (route) => {
      const sheet = await (await route.fetch()).json();
      change(sheet);
      await route.fulfill({ json: sheet });
    });
    await page.goto('/bikes/b1/sheet');
    await page.getByRole('heading', { name: 'Work done' }).waitFor();
    const onScreen = await page.locator('.sheet-chart svg:visible').boundingBox();
    const pages = await pagesOf(page);
    await page.emulateMedia({ media: 'print' });
    // the width between the margins of an A4 page
    await page.setViewportSize({ width: 703, height: 1047 });
    const smallest = await smallestPt(page);
    const chart = await page.locator('.sheet-chart svg:visible').count();
    const lettersPx = await page
      .locator('.tasks')
      .evaluate((tasks) => Number.parseFloat(getComputedStyle(tasks).fontSize));
    expect(faults).toEqual([]);
    await page.context().close();
    return { onScreen, pages, smallest, chart, lettersPt: PT_PER_PX * lettersPx };
  }

  for (const width of ['desktop', 'phone'] as const)
    it(`stays on one page in letters that can be read, with its chart, where much is said, from a ${width}`, async () => {
      const { onScreen, pages, smallest, chart } = await printed(width, (sheet) => full(sheet, USUAL_CAUTIONS));
      expect(onScreen!.width).toBeGreaterThan(0);
      expect(pages).toEqual([1, 1, 1]);
      expect(smallest).toBeGreaterThanOrEqual(SMALLEST_PT);
      expect(chart).toBe(1);
    });

  it('leaves out its chart rather than going on to another page or getting too small to read', async () => {
    const { onScreen, pages, smallest, chart } = await printed('desktop', (sheet) => full(sheet, MANY_CAUTIONS));
    expect(onScreen!.width).toBeGreaterThan(0);
    expect(pages).toEqual([1, 1, 1]);
    expect(smallest).toBeGreaterThanOrEqual(SMALLEST_PT);
    expect(chart).toBe(0);
  });

  it('has larger letters where there is room for them', async () => {
    const little = await printed('desktop', () => undefined);
    const much = await printed('desktop', (sheet) => full(sheet, USUAL_CAUTIONS));
    expect(little.pages).toEqual([1, 1, 1]);
    expect(little.lettersPt).toBeGreaterThan(much.lettersPt + 0.4);
  });
});
