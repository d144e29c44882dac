import { mean } from 'd3-array';
import { describe, expect, it } from 'vitest';
import { simulateRides } from '../../src/simulate/simulate-rides.ts';

const shiftsOf = (rider: 'smooth' | 'forceful') =>
  [1, 2, 3, 4, 5, 6].flatMap((seed) =>
    simulateRides({
      cause: 'cable-tension-low',
      severity: 0.2,
      seed,
      rider,
      terrain: 'hilly',
      durationS: 5400,
      formats: [],
    }).flatMap(({ truth }) => truth.shifts.filter((s) => s.outcome !== 'unjudged' && s.direction === 'to-larger')),
  );

describe('a rider who shifts under load', () => {
  const smooth = shiftsOf('smooth');
  const forceful = shiftsOf('forceful');
  const troubled = (shifts: typeof smooth): number =>
    shifts.filter((s) => s.outcome !== 'clean').length / shifts.length;

  it('pulls harder on the chain while it shifts and has more trouble with the same bike', () => {
    expect(mean(forceful, (s) => s.tensionN) as number).toBeGreaterThan(
      1.2 * (mean(smooth, (s) => s.tensionN) as number),
    );
    expect(troubled(forceful)).toBeGreaterThan(1.3 * troubled(smooth));
  });
});
