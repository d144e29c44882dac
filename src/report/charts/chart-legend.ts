import type { ChartSvg } from './chart-frame.ts';

/** One entry: a path around 0,0 (or a line if `line`) with a class that gives its colour, and its words. */
export interface LegendEntry {
  readonly words: string;
  readonly className: string;
  readonly path: string;
}

const letterPx = 6.4;
const rowPx = 18;

/** Rows that a legend takes at a width, so that a chart can leave room. */
export function legendRows(entries: readonly LegendEntry[], widthPx: number): number {
  return placed(entries, widthPx).at(-1)?.row ?? -1;
}

/** Height of a legend, px. */
export function legendHeightPx(entries: readonly LegendEntry[], widthPx: number): number {
  return (legendRows(entries, widthPx) + 1) * rowPx;
}

/** Draws the legend from `top` down, entries side by side and broken into rows where the width ends. */
export function drawLegend(svg: ChartSvg, entries: readonly LegendEntry[], widthPx: number, top = 0): void {
  const legend = svg.append('g').attr('class', 'legend');
  for (const { entry, x, row } of placed(entries, widthPx)) {
    const group = legend.append('g').attr('transform', `translate(${x},${top + row * rowPx + 9})`);
    group.append('path').attr('class', entry.className).attr('transform', 'translate(8,0)').attr('d', entry.path);
    group.append('text').attr('x', 20).attr('dy', '0.35em').text(entry.words);
  }
}

function placed(entries: readonly LegendEntry[], widthPx: number): { entry: LegendEntry; x: number; row: number }[] {
  let x = 4;
  let row = 0;
  return entries.map((entry) => {
    const width = 34 + entry.words.length * letterPx;
    if (x > 4 && x + width > widthPx) {
      x = 4;
      row++;
    }
    const place = { entry, x, row };
    x += width;
    return place;
  });
}
