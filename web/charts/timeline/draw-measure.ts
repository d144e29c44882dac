import { eachColumn } from './envelope.ts';
import type { Frame } from './frame.ts';
import type { MeasureBand } from './layout.ts';
import { isGap } from './ride-track.ts';
import type { Pen } from './surface.ts';

/** Draws speed, cadence or power: its line, or where there are more samples than pixels the span of each pixel. */
export function drawMeasure(frame: Frame, band: MeasureBand): void {
  const { surface, layout, palette, dense } = frame;
  drawScale(frame, band);
  surface.inside(layout.leftPx, band.topPx - 1, layout.rightPx - layout.leftPx, band.heightPx + 2, () => {
    surface.stroke((pen) => (dense ? traceSpans(pen, frame, band) : traceLine(pen, frame, band)), {
      colour: palette[band.colour],
      widthPx: dense ? 1 : 1.6,
    });
  });
}

const levels = [0, 0.5, 1];

const bottomOf = ({ topPx, heightPx }: MeasureBand): number => topPx + heightPx;

const yOf = (band: MeasureBand, value: number): number =>
  Math.max(band.topPx, bottomOf(band) - (value / band.most) * band.heightPx);

/** Draws the band's name and its lines at nothing, half and most, with their values. */
function drawScale({ surface, layout, palette }: Frame, band: MeasureBand): void {
  const levelY = (level: number): number => bottomOf(band) - level * band.heightPx;
  surface.stroke(
    (pen) => {
      for (const level of levels) {
        pen.moveTo(layout.leftPx, levelY(level));
        pen.lineTo(layout.rightPx, levelY(level));
      }
    },
    { colour: palette.line, widthPx: 1 },
  );
  surface.text(`${band.name}, ${band.unit}`, layout.leftPx, band.topPx - 10, { colour: palette.quiet });
  for (const level of levels)
    surface.text(String(Math.round(level * band.most)), layout.leftPx - 7, levelY(level), {
      colour: palette.quiet,
      anchor: 'end',
    });
}

/** Goes up and down over the values in each pixel column. */
function traceSpans(pen: Pen, { x, track, first, last }: Frame, band: MeasureBand): void {
  eachColumn(
    band.envelope,
    first,
    last,
    (sample) => x(track.timeS[sample]),
    (column, low, high) => {
      pen.moveTo(column, yOf(band, low) + 0.6);
      pen.lineTo(column, yOf(band, high) - 0.6);
    },
  );
}

/** Goes from sample to sample; a missing value or a pause breaks the line. */
function traceLine(pen: Pen, { x, track, first, last }: Frame, band: MeasureBand): void {
  const { values } = band.envelope;
  let down = false;
  for (let i = first; i < last; i++) {
    if (Number.isNaN(values[i])) {
      down = false;
      continue;
    }
    const px = x(track.timeS[i]);
    const py = yOf(band, values[i]);
    if (!down || isGap(track, i)) pen.moveTo(px, py);
    pen.lineTo(px, py);
    down = true;
  }
}
