import { scaleLinear } from 'd3-scale';
import { describe, expect, it } from 'vitest';
import { drawGears } from '../../web/charts/timeline/draw-gears.ts';
import type { Frame } from '../../web/charts/timeline/frame.ts';
import { layOut } from '../../web/charts/timeline/layout.ts';
import type { Palette } from '../../web/charts/timeline/palette.ts';
import { makeTrack } from '../../web/charts/timeline/ride-track.ts';
import type { Surface } from '../../web/charts/timeline/surface.ts';
import { columnsWithLostDrive } from './made-columns.ts';

const track = makeTrack(columnsWithLostDrive(100, 20, 60));

/** The words that are drawn, with where they stand, and the cog lines' points, while so many seconds are in view. */
function drawn(fromS: number, toS: number): { words: Map<string, number>; solidAt: number[] } {
  const words = new Map<string, number>();
  const solidAt: number[] = [];
  const layout = layOut(track, 860);
  const x = scaleLinear([fromS, toS], [layout.leftPx, layout.rightPx]);
  const surface: Surface = {
    stroke: (draw, { widthPx }) => {
      const note = (px: number): void => void (widthPx === 3 && solidAt.push(x.invert(px)));
      draw({ moveTo: note, lineTo: note, rect: () => {} });
    },
    fill: () => {},
    mark: () => {},
    text: (text, px) => void words.set(text, px),
    inside: (_x, _y, _width, _height, draw) => draw(),
  };
  const palette = new Proxy({}, { get: () => 'black' }) as Palette;
  const scene = { track, events: [], lost: track.lost, layout, palette, fromS, toS, readingS: null, openEvent: null };
  drawGears({ ...scene, surface, x, first: 0, last: 100, dense: false } as Frame);
  return { words, solidAt };
}

describe('the gears on the timeline', () => {
  it('end where drive was lost and go on where the chain drives again, with words in the gap', () => {
    const { words, solidAt } = drawn(0, 100);
    expect(solidAt.filter((s) => s > 20.5 && s < 59.5)).toEqual([]);
    const middlePx = words.get('drive lost') ?? Number.NaN;
    expect(middlePx).toBeGreaterThan(52 + 0.2 * 800);
    expect(middlePx).toBeLessThan(52 + 0.6 * 800);
  });

  it('have the words in what is in view of the gap, and none where there is no room', () => {
    expect(drawn(50, 100).words.get('drive lost')).toBeLessThan(52 + 0.2 * 800);
    expect(drawn(58, 158).words.has('drive lost')).toBe(false);
  });
});
