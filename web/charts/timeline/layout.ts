import type { Envelope } from './envelope.ts';
import type { ColourName } from './palette.ts';
import { hasValues, type RideTrack } from './ride-track.ts';

/** One measured column below the gears. */
export interface MeasureBand {
  readonly name: string;
  readonly unit: string;
  readonly colour: ColourName;
  readonly envelope: Envelope;
  readonly topPx: number;
  readonly heightPx: number;
  /** Value at the band's upper edge. */
  readonly most: number;
}

/** Where everything stands on the timeline, in pixels. */
export interface Layout {
  readonly leftPx: number;
  readonly rightPx: number;
  readonly eventsPx: { readonly top: number; readonly height: number };
  readonly gears: { readonly topPx: number; readonly heightPx: number; readonly cogs: number };
  readonly measures: readonly MeasureBand[];
  readonly axisPx: number;
  readonly overview: { readonly topPx: number; readonly heightPx: number };
  readonly heightPx: number;
}

const EVENTS_HEIGHT = 44;
const GAP_PX = 26;
const MEASURE_HEIGHT = 62;

/** The largest value, up to a round number; one stray sample in a thousand may stand above it. */
function roundTop({ values }: Envelope, stepTo: number): number {
  const sorted = values.filter((value) => !Number.isNaN(value)).sort();
  const most = sorted[Math.floor((sorted.length - 1) * 0.999)] ?? 1;
  return Math.max(stepTo, Math.ceil(most / stepTo) * stepTo);
}

/** Lays the timeline out for a width. Bands without any value are left out. */
export function layOut(track: RideTrack, widthPx: number): Layout {
  const narrow = widthPx < 600;
  let y = 6;
  const eventsPx = { top: y, height: EVENTS_HEIGHT };
  y += EVENTS_HEIGHT + 18;
  const gears = {
    topPx: y,
    heightPx: Math.max(narrow ? 130 : 170, track.cassette.length * 14),
    cogs: track.cassette.length,
  };
  y += gears.heightPx + GAP_PX;
  const bands = (
    [
      { name: 'Speed', unit: 'km/h', colour: 'speed', envelope: track.speedKmh, stepTo: 10 },
      { name: 'Cadence', unit: 'rpm', colour: 'cadence', envelope: track.cadenceRpm, stepTo: 20 },
      { name: 'Power', unit: 'W', colour: 'power', envelope: track.powerW, stepTo: 100 },
    ] as const
  ).filter(({ envelope }) => hasValues(envelope));
  const measures = bands.map(({ stepTo, ...band }) => {
    const topPx = y;
    y += MEASURE_HEIGHT + GAP_PX;
    return { ...band, topPx, heightPx: MEASURE_HEIGHT, most: roundTop(band.envelope, stepTo) };
  });
  const axisPx = y - GAP_PX + 6;
  const overview = { topPx: axisPx + 34, heightPx: 30 };
  return {
    leftPx: narrow ? 40 : 52,
    rightPx: widthPx - 8,
    eventsPx,
    gears,
    measures,
    axisPx,
    overview,
    heightPx: overview.topPx + overview.heightPx + 4,
  };
}
