import { scaleLinear } from 'd3-scale';
import { rideClock } from '../../words/dates.ts';
import { drawEvents } from './draw-events.ts';
import { drawGears } from './draw-gears.ts';
import { drawMeasure } from './draw-measure.ts';
import { drawOverview } from './draw-overview.ts';
import type { Frame, Scene } from './frame.ts';
import { sampleFrom } from './ride-track.ts';
import type { Surface } from './surface.ts';

const steps = [1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 14_400, 43_200];

function drawTime({ surface, x, layout, palette, fromS, toS }: Frame): void {
  const room = Math.max(2, (layout.rightPx - layout.leftPx) / 90);
  const step = steps.find((one) => (toS - fromS) / one <= room) ?? steps[steps.length - 1];
  const ticks: number[] = [];
  for (let at = Math.ceil(fromS / step) * step; at <= toS; at += step) ticks.push(at);
  const top = layout.gears.topPx;
  surface.stroke(
    (pen) => {
      for (const at of ticks) {
        pen.moveTo(x(at), top);
        pen.lineTo(x(at), layout.axisPx);
      }
    },
    { colour: palette.line, widthPx: 1 },
  );
  for (const at of ticks)
    if (x(at) < layout.rightPx - 14)
      surface.text(rideClock(at), x(at), layout.axisPx + 12, { colour: palette.quiet, anchor: 'middle' });
}

function drawReadingLine({ surface, x, layout, palette, readingS, fromS, toS }: Frame): void {
  if (readingS === null || readingS < fromS || readingS > toS) return;
  surface.stroke(
    (pen) => {
      pen.moveTo(x(readingS), layout.eventsPx.top);
      pen.lineTo(x(readingS), layout.axisPx);
    },
    { colour: palette.ink, widthPx: 1 },
  );
}

/** Draws one scene. */
export function drawTimeline(surface: Surface, scene: Scene): void {
  const { track, layout, fromS, toS } = scene;
  const first = Math.max(0, sampleFrom(track, fromS) - 1);
  const last = Math.min(track.timeS.length, sampleFrom(track, toS) + 1);
  const frame: Frame = {
    ...scene,
    surface,
    x: scaleLinear([fromS, toS], [layout.leftPx, layout.rightPx]),
    first,
    last,
    dense: last - first > (layout.rightPx - layout.leftPx) * 1.5,
  };
  drawTime(frame);
  drawGears(frame);
  for (const band of layout.measures) drawMeasure(frame, band);
  drawEvents(frame);
  drawReadingLine(frame);
  drawOverview(frame);
}
