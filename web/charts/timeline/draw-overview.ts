import { scaleLinear } from 'd3-scale';
import { eachColumn } from './envelope.ts';
import type { Frame } from './frame.ts';
import { hasValues } from './ride-track.ts';

/** Draws the whole ride as a strip with trouble marked and the part in view framed: the cog the chain was on, where nothing shows that the one asked for. */
export function drawOverview({ surface, track, layout, palette, events, fromS, toS }: Frame): void {
  const { topPx, heightPx } = layout.overview;
  const { leftPx, rightPx } = layout;
  const x = scaleLinear([0, Math.max(1, track.durationS)], [leftPx, rightPx]);
  const y = (cog: number): number => topPx + heightPx - ((cog + 0.5) / layout.gears.cogs) * heightPx;
  surface.fill((pen) => pen.rect(leftPx, topPx, rightPx - leftPx, heightPx), palette.sunk);
  surface.stroke(
    (pen) =>
      eachColumn(
        hasValues(track.actual) ? track.actual : track.commanded,
        0,
        track.timeS.length,
        (sample) => x(track.timeS[sample]),
        (px, low, high) => {
          pen.moveTo(px, y(low) + 1);
          pen.lineTo(px, y(high) - 1);
        },
      ),
    { colour: palette['line-strong'], widthPx: 1 },
  );
  surface.stroke(
    (pen) => {
      for (const { kind, timeS, rejected } of events) {
        if (kind === 'clean' || kind === 'unjudged' || rejected) continue;
        pen.moveTo(x(timeS), topPx);
        pen.lineTo(x(timeS), topPx + 7);
      }
    },
    { colour: palette.trouble, widthPx: 1.5 },
  );
  const left = x(fromS);
  const width = Math.max(3, x(toS) - left);
  surface.fill((pen) => pen.rect(left, topPx, width, heightPx), palette.accent, 0.14);
  surface.stroke((pen) => pen.rect(left, topPx, width, heightPx), { colour: palette.accent, widthPx: 1.5 });
}
