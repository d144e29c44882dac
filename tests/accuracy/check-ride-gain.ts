import { causes } from '../../src/diagnosis/causes.ts';
import { diagnose } from '../../src/diagnosis/diagnose.ts';
import { families, generateRides } from '../diagnosis/event-generator.ts';
import { cassette } from '../diagnosis/pattern-ride.ts';

/** How much faster a check ride finds the cause than as many ordinary shifts. */
export interface CheckRideGain {
  /** Bikes whose verdict asks for a check ride; the others are not counted. */
  readonly bikes: number;
  readonly plannedShifts: number;
  readonly top1Before: number;
  readonly top1Planned: number;
  readonly top1Ordinary: number;
  /** Mean probability of the true cause. */
  readonly truthBefore: number;
  readonly truthPlanned: number;
  readonly truthOrdinary: number;
}

const bike = { name: 'Check ride', chainrings: [32], cassette, actuation: 'cable' as const };

/**
 * Short rides of bikes with every cause, made straight as events by three sets of plain rules (tests/diagnosis); then the
 * check ride that the verdict asks for, against as many ordinary shifts.
 */
export function checkRideGain(seeds: number, firstSeed: number): CheckRideGain {
  const sums = { bikes: 0, plannedShifts: 0, top: [0, 0, 0], truth: [0, 0, 0] };
  for (const cause of causes)
    for (let i = 0; i < seeds; i++) {
      const options = {
        cause,
        family: families[i % families.length],
        severity: 'severe' as const,
        seed: firstSeed + i,
        shiftsPerRide: 60,
        detectionNoise: 0.01,
      };
      const ordinary = generateRides({ ...options, rides: 2 });
      const first = ordinary.slice(0, 1);
      const before = diagnose({ bike, rides: first, adjustments: [] });
      const planned = before.checkRide.blocks.flatMap(({ count, fromTeeth, toTeeth, load }) =>
        Array.from({ length: count }, () => ({
          fromCog: cassette.indexOf(fromTeeth),
          toCog: cassette.indexOf(toTeeth),
          firm: load === 'firm',
        })),
      );
      const count = planned.length;
      if (count === 0) continue;
      const [, ride] = generateRides({ ...options, rides: 2, planned: { ride: 1, moves: planned } });
      const [, habit] = generateRides({ ...options, rides: 2, shiftsOnRide: { ride: 1, shifts: count } });
      const verdicts = [
        before,
        diagnose({ bike, rides: [...first, ride], adjustments: [] }),
        diagnose({ bike, rides: [...first, habit], adjustments: [] }),
      ];
      sums.bikes++;
      sums.plannedShifts += count;
      verdicts.forEach((verdict, k) => {
        sums.top[k] += verdict.causes[0].cause === cause ? 1 : 0;
        sums.truth[k] += verdict.causes.find((one) => one.cause === cause)?.probability ?? 0;
      });
    }
  const [top1Before, top1Planned, top1Ordinary] = sums.top.map((sum) => sum / sums.bikes);
  const [truthBefore, truthPlanned, truthOrdinary] = sums.truth.map((sum) => sum / sums.bikes);
  return {
    bikes: sums.bikes,
    plannedShifts: sums.plannedShifts / sums.bikes,
    top1Before,
    top1Planned,
    top1Ordinary,
    truthBefore,
    truthPlanned,
    truthOrdinary,
  };
}
