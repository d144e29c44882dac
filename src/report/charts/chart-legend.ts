import type { ChartSize, ChartSvg, PlotArea } from './chart-frame.ts';

/** One entry: a path around 0,0 (or a line if `line`) with a class that gives its colour, and its words. */
export interface LegendEntry {
  readonly words: string;
  readonly className: string;
  readonly path: string;
}

const LETTER_PX = 6.4;
const ROW_PX = 18;

/** Height of a legend, px. */
export function legendHeightPx(entries: readonly LegendEntry[], widthPx: number): number {
  return ((placed(entries, widthPx).at(-1)?.row ?? -1) + 1) * ROW_PX;
}

/**
 * Draws the legend along the top of the drawing and gives what is left for the plot: below it room for the name of the
 * upright axis, and at the other sides the margins asked for, px.
 */
export function legendThenPlot(
  svg: ChartSvg,
  entries: readonly LegendEntry[],
  { widthPx, heightPx }: ChartSize,
  margin: { readonly left: number; readonly right: number; readonly bottom: number },
): PlotArea {
  drawLegend(svg, entries, widthPx);
  return {
    left: margin.left,
    right: widthPx - margin.right,
    top: legendHeightPx(entries, widthPx) + 26,
    bottom: heightPx - margin.bottom,
  };
}

/** Draws the legend at the top, entries side by side and broken into rows where the width ends. */
export function drawLegend(svg: ChartSvg, entries: readonly LegendEntry[], widthPx: number): void {
  const legend = svg.append('g').attr('class', 'legend');
  for (const { entry, x, row } of placed(entries, widthPx)) {
    const group = legend.append('g').attr('transform', `translate(${x},${row * ROW_PX + 9})`);
    group.append('path').attr('class', entry.className).attr('transform', 'translate(8,0)').attr('d', entry.path);
    group.append('text').attr('x', 20).attr('dy', '0.35em').text(entry.words);
  }
}

function placed(entries: readonly LegendEntry[], widthPx: number): { entry: LegendEntry; x: number; row: number }[] {
  let x = 4;
  let row = 0;
  return entries.map((entry) => {
    const width = 34 + entry.words.length * LETTER_PX;
    if (x > 4 && x + width > widthPx) {
      x = 4;
      row++;
    }
    const place = { entry, x, row };
    x += width;
    return place;
  });
}
