import { select } from 'd3-selection';
import { drawSkipsByCog } from '../../src/report/charts/skips-by-cog-chart.ts';
import { drawTroubleByCog, eventRowsPx } from '../../src/report/charts/trouble-by-cog-chart.ts';
import { showsBySkips } from '../../src/report/state/trouble-to-order-by.ts';
import { describeTroubleByCog } from '../../src/report/words/cog-sentences.ts';
import { anySkips, describeSkipsByCog, SKIPS_TITLE } from '../../src/report/words/skip-sentences.ts';
import type { SheetData } from '../api/answers.ts';
import { make, makeSvg } from '../dom/make.ts';
import { troublePeriod } from '../words/trouble-period.ts';

interface Drawing {
  readonly widthPx: number;
  /** Without the rows of marks under the axis. */
  readonly heightPx: number;
}

/** As wide as the page is between its margins (see the style sheet), so that its words are printed in their own size. */
const ON_PAPER: Drawing = { widthPx: 703, heightPx: 195 };
const ON_WIDE_SCREEN: Drawing = { widthPx: 700, heightPx: 250 };
const ON_NARROW_SCREEN: Drawing = { widthPx: 380, heightPx: 250 };
const NARROW_BELOW_PX = 600;

/** What is drawn, and what it shows in sentences. */
interface Shown {
  readonly title: string;
  readonly summary: string;
  /** What the drawing needs beyond its usual height, px. */
  readonly morePx: number;
  readonly draw: (svg: SVGSVGElement, widthPx: number, heightPx: number) => void;
}

/** Of a bike that shows its wear by skips those, else how its shifts go; null where there is nothing to draw. */
function shownOn({ state, cogs, skips }: { state: SheetData['state'] } & ByCog): Shown | null {
  const judged = cogs.some(({ shifts }) => shifts > 0);
  if (anySkips(skips) && (!judged || showsBySkips(state)))
    return {
      title: SKIPS_TITLE,
      summary: describeSkipsByCog(skips),
      morePx: 0,
      draw: (svg, widthPx, heightPx) => drawSkipsByCog(select(svg), skips, { widthPx, heightPx }),
    };
  if (!judged) return null;
  return {
    title: 'Trouble by cog and direction',
    summary: describeTroubleByCog(cogs),
    morePx: eventRowsPx(cogs),
    draw: (svg, widthPx, heightPx) => drawTroubleByCog(select(svg), cogs, { widthPx, heightPx }),
  };
}

/** What counts for the bike as it is now, by cog. */
interface ByCog {
  readonly cogs: SheetData['cogs'];
  readonly skips: SheetData['skipsByCog'];
}

/** The chart in fixed sizes, one for the screen and one for paper: it is printed, not read by pointer. Null: nothing to draw. */
export function sheetChart({ state, cogsSince, ...sheet }: SheetData, roomPx: number): HTMLElement | null {
  const skips = sheet.skipsByCogSince ?? sheet.skipsByCog;
  const shown = shownOn({ state, cogs: cogsSince ?? sheet.cogs, skips });
  if (!shown) return null;
  const drawn = (where: string, { widthPx, heightPx }: Drawing): SVGSVGElement => {
    const svg = makeSvg('svg', {
      class: `chart ${where}`,
      role: 'img',
      'aria-label': `${shown.title}. ${shown.summary}`,
    });
    shown.draw(svg, widthPx, heightPx + shown.morePx);
    return svg;
  };
  return make(
    'section',
    { class: 'sheet-chart' },
    make('h2', {}, cogsSince ? `Where it shows ${troublePeriod(state)}` : 'Where it shows'),
    anySkips(skips) && make('p', {}, describeSkipsByCog(skips)),
    drawn('not-printed', roomPx < NARROW_BELOW_PX ? ON_NARROW_SCREEN : ON_WIDE_SCREEN),
    drawn('only-printed', ON_PAPER),
  );
}
