import { expect, it } from 'vitest';
import { gearKey } from '../../web/charts/timeline/draw-gears.ts';
import { drawOverview } from '../../web/charts/timeline/draw-overview.ts';
import { makeTrack } from '../../web/charts/timeline/ride-track.ts';

const track = (commandedTeeth: (number | null)[], actualTeeth: (number | null)[]) => {
  const none = [null, null];
  const rest = { speedMps: none, cadenceRpm: none, powerW: none, ring: none, chainrings: [32], cassette: [11, 13] };
  return makeTrack({ startMs: 0, timeS: [0, 1], commandedTeeth, actualTeeth, ...rest } as never);
};

it('names the lines that are drawn, dashed only where the dashes can be seen', () => {
  const both = track([11, 13], [11, 11]);
  expect(gearKey(both, false).map(({ words, dash }) => [words, dash !== undefined])).toEqual([
    ['asked for', true],
    ['chain on', false],
  ]);
  expect(gearKey(both, true).every(({ dash }) => dash === undefined)).toBe(true);
  expect(gearKey(track([11, 13], [null, null]), true).map(({ words }) => words)).toEqual(['asked for']);
  expect(gearKey(track([null, null], [11, 13]), true).map(({ words }) => words)).toEqual(['chain on']);
});

it('draws the cog asked for over the whole ride where nothing shows the chain', () => {
  const drawn = (actual: (number | null)[]): number => {
    let lines = 0;
    const pen = { moveTo: () => undefined, lineTo: () => lines++, rect: () => undefined };
    const surface = { stroke: (draw: (on: typeof pen) => void) => draw(pen), fill: () => undefined };
    const layout = { leftPx: 0, rightPx: 100, overview: { topPx: 0, heightPx: 30 }, gears: { cogs: 2 } };
    drawOverview({
      surface,
      layout,
      palette: {},
      events: [],
      fromS: 0,
      toS: 1,
      track: track([11, 13], actual),
    } as never);
    return lines;
  };
  expect(drawn([null, null])).toBe(2);
  expect(drawn([11, null])).toBe(1);
});
