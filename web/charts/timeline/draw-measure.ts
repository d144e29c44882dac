import { eachColumn } from './envelope.ts';
import type { Frame } from './frame.ts';
import type { MeasureBand } from './layout.ts';
import { isGap } from './ride-track.ts';

/** Draws speed, cadence or power: its line, or where there are more samples than pixels the span of each pixel. */
export function drawMeasure(
  { surface, x, track, layout, palette, first, last, dense }: Frame,
  band: MeasureBand,
): void {
  const bottom = band.topPx + band.heightPx;
  const y = (value: number): number => Math.max(band.topPx, bottom - (value / band.most) * band.heightPx);
  const colour = palette[band.colour];
  surface.stroke(
    (pen) => {
      for (const level of [0, 0.5, 1]) {
        pen.moveTo(layout.leftPx, bottom - level * band.heightPx);
        pen.lineTo(layout.rightPx, bottom - level * band.heightPx);
      }
    },
    { colour: palette.line, widthPx: 1 },
  );
  surface.text(`${band.name}, ${band.unit}`, layout.leftPx, band.topPx - 10, { colour: palette.quiet });
  for (const level of [0, 0.5, 1])
    surface.text(String(Math.round(level * band.most)), layout.leftPx - 7, bottom - level * band.heightPx, {
      colour: palette.quiet,
      anchor: 'end',
    });
  const { values } = band.envelope;
  surface.inside(layout.leftPx, band.topPx - 1, layout.rightPx - layout.leftPx, band.heightPx + 2, () => {
    surface.stroke(
      (pen) => {
        if (dense) {
          eachColumn(
            band.envelope,
            first,
            last,
            (sample) => x(track.timeS[sample]),
            (column, low, high) => {
              pen.moveTo(column, y(low) + 0.6);
              pen.lineTo(column, y(high) - 0.6);
            },
          );
          return;
        }
        let down = false;
        for (let i = first; i < last; i++) {
          if (Number.isNaN(values[i])) {
            down = false;
            continue;
          }
          const px = x(track.timeS[i]);
          if (!down || isGap(track, i)) pen.moveTo(px, y(values[i]));
          pen.lineTo(px, y(values[i]));
          down = true;
        }
      },
      { colour, widthPx: dense ? 1 : 1.6 },
    );
  });
}
