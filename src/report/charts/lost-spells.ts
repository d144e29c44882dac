import type { ChartSvg } from './chart-frame.ts';

/** Seconds in which the chain was on no cog. */
export interface LostSpell {
  readonly fromS: number;
  readonly toS: number;
}

/** Narrower than this a spell of a long ride could not be seen, px. */
const LEAST_SPELL_PX = 2;

/** Marks where the chain was on no cog, over the height of an area. */
export function drawLostSpells(
  svg: ChartSvg,
  lost: readonly LostSpell[],
  x: (s: number) => number,
  area: { top: number; bottom: number },
): void {
  svg
    .append('g')
    .selectAll('rect')
    .data(lost)
    .join('rect')
    .attr('class', 'lost-band')
    .attr('x', ({ fromS }) => Math.round(10 * x(fromS)) / 10)
    .attr('width', ({ fromS, toS }) => Math.max(LEAST_SPELL_PX, Math.round(10 * (x(toS) - x(fromS))) / 10))
    .attr('y', area.top)
    .attr('height', area.bottom - area.top);
}
