import { sum } from 'd3-array';
import { directions } from '../../cogs/directions.ts';
import { counted } from '../../numeric/counted.ts';
import { sureTimesWords } from '../../numeric/sure-times-words.ts';
import type { Direction } from '../../shifts/ride-events.ts';
import { type CogTrouble, teethOf } from '../cog-trouble.ts';
import { type ChartSvg, readsAs } from './chart-frame.ts';
import type { LegendEntry } from './chart-legend.ts';
import { directionShape, eventShape } from './mark-shapes.ts';

/** A row of counts under the axis of cogs: its name with a mark before it, and a number under each cog that has one. */
export interface CountRow {
  readonly name: string;
  readonly className: string;
  readonly path: string;
  /** What stands in the legend of it; none for a row that the legend explains already. */
  readonly legend?: string;
  readonly counts: ReadonlyMap<number, number>;
  /** The reading of a count that is a finding by itself: such a row carries its mark at each cog, where there is room. */
  readonly reads?: (teeth: number, count: number) => string;
  /** How a count is written where not all of it is sure; as the number if left out. */
  readonly writes?: (teeth: number, count: number) => string;
}

/** Height of one row, px. */
export const COUNT_ROW_PX = 15;
/** How far a mark stands left of the middle of its cog, and its count right of it, px. */
const MARK_PX = 6;
/** Width of a mark with the gaps beside it, and of a figure, px. */
const MARK_ROOM_PX = 20;
const FIGURE_PX = 7;

/** How many shifts of one direction were judged, by cog. */
export const judgedRow = (cogs: readonly CogTrouble[], direction: Direction, className = ''): CountRow => ({
  name: 'judged',
  className: `${direction} ${className}`.trim(),
  path: directionShape[direction],
  counts: new Map(cogs.filter((cog) => cog.direction === direction).map(({ teeth, shifts }) => [teeth, shifts])),
});

/** Rows of what went wrong beside the shifts: chains lost past a cog and unasked moves onto it; only what there is any of. */
export function eventRows(cogs: readonly CogTrouble[]): CountRow[] {
  const sums = (pick: (cog: CogTrouble) => number | undefined): Map<number, number> =>
    new Map(
      teethOf(cogs).flatMap((teeth) => {
        const ofCog = cogs.filter((cog) => cog.teeth === teeth);
        const count = sum(ofCog, (cog) => pick(cog) ?? 0);
        return count > 0 ? [[teeth, count] as const] : [];
      }),
    );
  const lost = sums(({ chainDrops }) => chainDrops);
  const sure = sums(({ chainDrops, sureChainDrops = chainDrops }) => sureChainDrops);
  const sureAt = (teeth: number): number => sure.get(teeth) ?? 0;
  const allSure = [...lost].every(([teeth, count]) => sureAt(teeth) === count);
  const rows: CountRow[] = [
    {
      name: 'lost',
      className: 'event drop',
      path: eventShape.drop,
      legend: `chain lost past the cog${allSure ? '' : ' (?: not sure)'}`,
      counts: lost,
      reads: (teeth, count) => `Past the ${teeth}: chain lost ${sureTimesWords(count, sureAt(teeth))}`,
      writes: (teeth, count) => sureCount(count, sureAt(teeth)),
    },
    {
      name: 'ghost',
      className: 'event ghost',
      path: eventShape.ghost,
      legend: 'ghost shift onto the cog',
      counts: sums(({ ghostShifts }) => ghostShifts),
      reads: (teeth, count) => `Onto ${teeth} teeth unasked: ${counted(count, 'ghost shift')}`,
    },
  ];
  return rows.filter(({ counts }) => counts.size > 0);
}

/** "2", "1+1?", "2?". */
function sureCount(all: number, sure: number): string {
  if (sure === all) return String(all);
  return sure === 0 ? `${all}?` : `${sure}+${all - sure}?`;
}

/** The rows under a chart of all rides: shifts judged in either direction, then what else went wrong. */
export const countRows = (cogs: readonly CogTrouble[]): CountRow[] => [
  ...directions.map((direction) => judgedRow(cogs, direction)),
  ...eventRows(cogs),
];

/** What the rows add to the legend. */
export const rowLegend = (rows: readonly CountRow[]): LegendEntry[] =>
  rows.flatMap(({ legend, className, path }) => (legend ? [{ words: legend, className, path }] : []));

/** Whether each count of a row can carry its mark and still stand apart from the next one's. */
function marksFit(cells: readonly { readonly px: number; readonly words: string }[]): boolean {
  return cells.every(({ px, words }, i) => i === 0 || px - cells[i - 1].px >= MARK_ROOM_PX + FIGURE_PX * words.length);
}

/** Draws the rows, the first one's foot at `top` px, each number under its cog at `x`. */
export function drawCountRows(
  svg: ChartSvg,
  rows: readonly CountRow[],
  x: (teeth: number) => number | undefined,
  top: number,
): void {
  rows.forEach(({ name, className, path, counts, reads, writes }, row) => {
    const y = top + row * COUNT_ROW_PX;
    const line = svg.append('g').attr('class', `counts ${className}`);
    line.append('text').attr('x', 2).attr('y', y).text(name).attr('class', 'count-name');
    line
      .append('path')
      .attr('class', 'point')
      .attr('transform', `translate(50,${y - 4}) scale(0.8)`)
      .attr('d', path);
    const at = (teeth: number): number => x(teeth) ?? 0;
    const written = ([teeth, count]: readonly [number, number]): string => writes?.(teeth, count) ?? String(count);
    const shown = [...counts].filter(([teeth]) => x(teeth) !== undefined);
    const isMarked = reads !== undefined && marksFit(shown.map((cell) => ({ px: at(cell[0]), words: written(cell) })));
    const cells = line.selectAll('g').data(shown).join('g');
    cells
      .append('text')
      .attr('class', 'count')
      .attr('x', ([teeth]) => at(teeth) + (isMarked ? MARK_PX : 0))
      .attr('y', y)
      .attr('text-anchor', 'middle')
      .text(written);
    if (!reads) return;
    cells.attr('class', 'mark');
    if (isMarked)
      cells
        .append('path')
        .attr('transform', (cell) => {
          const wide = written(cell).length > 2 ? MARK_PX : 0;
          return `translate(${at(cell[0]) - MARK_PX - wide},${y - 4}) scale(0.8)`;
        })
        .attr('d', path);
    readsAs(cells, ([teeth, count]) => reads(teeth, count));
  });
}
