import type { MomentSample } from './moment.ts';

type Key = 'askedTeeth' | 'chainTeeth' | 'speedKmh' | 'cadenceRpm' | 'powerW';

/** A line of one value; stepped for cogs, broken where the value is missing. */
export function linePath(
  samples: readonly MomentSample[],
  key: Key,
  x: (s: number) => number,
  y: (value: number) => number,
  stepped: boolean,
): string {
  let path = '';
  let before = Number.NaN;
  for (const sample of samples) {
    const value = sample[key];
    if (!Number.isNaN(value)) {
      const [px, py] = [x(sample.s).toFixed(1), y(value).toFixed(1)];
      if (Number.isNaN(before)) path += `M${px},${py}`;
      else path += stepped ? `H${px}V${py}` : `L${px},${py}`;
    }
    before = value;
  }
  return path;
}
