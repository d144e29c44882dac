import { select } from 'd3-selection';
import { drawTroubleByCog, eventRowsPx } from '../../src/report/charts/trouble-by-cog-chart.ts';
import { describeTroubleByCog } from '../../src/report/words/cog-sentences.ts';
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

/** The chart in fixed sizes, one for the screen and one for paper: it is printed, not read by pointer. Null: no shift to draw. */
export function sheetChart({ state, cogsSince, ...sheet }: SheetData, roomPx: number): HTMLElement | null {
  const cogs = cogsSince ?? sheet.cogs;
  if (cogs.every(({ shifts }) => shifts === 0)) return null;
  const drawn = (where: string, { widthPx, heightPx }: Drawing): SVGSVGElement => {
    const svg = makeSvg('svg', {
      class: `chart ${where}`,
      role: 'img',
      'aria-label': `Trouble by cog and direction. ${describeTroubleByCog(cogs)}`,
    });
    drawTroubleByCog(select(svg), cogs, { widthPx, heightPx: heightPx + eventRowsPx(cogs) });
    return svg;
  };
  return make(
    'section',
    { class: 'sheet-chart' },
    make('h2', {}, cogsSince ? `Where it shows ${troublePeriod(state)}` : 'Where it shows'),
    drawn('not-printed', roomPx < NARROW_BELOW_PX ? ON_NARROW_SCREEN : ON_WIDE_SCREEN),
    drawn('only-printed', ON_PAPER),
  );
}
