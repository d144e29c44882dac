import { GAP_S } from '../timeline/ride-track.ts';
import type { MomentSample } from './moment.ts';

type Key = 'askedTeeth' | 'chainTeeth' | 'speedKmh' | 'cadenceRpm' | 'powerW';

/** A line of one value; stepped for cogs, broken where the value is missing and where nothing was recorded for long. */
export function linePath(
  samples: readonly MomentSample[],
  key: Key,
  x: (s: number) => number,
  y: (value: number) => number,
  stepped: boolean,
): string {
  let path = '';
  let before = Number.NaN;
  let beforeS = Number.NEGATIVE_INFINITY;
  for (const sample of samples) {
    const value = sample[key];
    if (!Number.isNaN(value)) {
      const [px, py] = [x(sample.s).toFixed(1), y(value).toFixed(1)];
      const apart = Number.isNaN(before) || sample.s - beforeS > GAP_S;
      // a cog shown by one record alone is a dot at least
      if (apart) path += `M${px},${py}${stepped ? 'h1' : ''}`;
      else path += stepped ? `H${px}V${py}` : `L${px},${py}`;
    }
    before = value;
    beforeS = sample.s;
  }
  return path;
}
