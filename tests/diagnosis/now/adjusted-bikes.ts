import type { Adjustment } from '../../../src/adjustments/adjustment.ts';
import { diagnose } from '../../../src/diagnosis/diagnose.ts';
import type { Diagnosis, DiagnosisInput, DiagnosisRide } from '../../../src/diagnosis/diagnosis.ts';
import type { DropSide } from '../../../src/shifts/ride-events.ts';
import { cableBike, electronicBike, type Pattern, type PatternRide, patternRide } from '../pattern-ride.ts';

type PatternOf = PatternRide['pattern'];

/** Shifts of which so many are late and missed, in one direction. */
export const slow =
  (direction: 'to-larger' | 'to-smaller', late = 0.17, missed = 0.17): PatternOf =>
  (_: number, larger: boolean): Pattern =>
    larger === (direction === 'to-larger') ? { late, missed } : {};

/** Shifts onto an end cog that mostly go wrong. */
export const shortOf =
  (end: 'largest' | 'smallest'): PatternOf =>
  (cog: number, larger: boolean): Pattern =>
    cog === (end === 'largest' ? 11 : 0) && larger === (end === 'largest') ? { late: 0.3, missed: 0.4 } : {};

/** Chains lost on a side. */
export const lost = (side: DropSide, count: number): PatternRide['drops'] =>
  Array.from({ length: count }, () => [side, side === 'past-largest' ? 11 : 0] as const);

const units = { 'cable-tension': 'clicks', 'index-offset': 'steps' } as const;

/** What was turned, by how much; null for a part that was replaced. */
export type Turn = readonly [parameter: Adjustment['parameter'], amount: number | null];

/** An adjustment on the evening of a day. */
export const turned = (day: number, [parameter, amount]: Turn): Adjustment => ({
  at: new Date(Date.UTC(2026, 4, 1 + day, 18)).toISOString(),
  parameter,
  amount,
  unit: amount === null ? 'done' : (units[parameter as 'cable-tension'] ?? 'turns'),
  note: '',
});

/** Rides of every other day, each with an adjustment on the evening before it but the first, where one is given. */
export function adjustedBike(
  rides: readonly (Omit<PatternRide, 'day'> & { readonly after?: Turn })[],
  bike = cableBike,
): DiagnosisInput & { readonly rides: readonly DiagnosisRide[] } {
  return {
    bike,
    rides: rides.map((ride, i) => patternRide({ ...ride, day: 2 * i })),
    adjustments: rides.flatMap(({ after }, i) => (after ? [turned(2 * i - 1, after)] : [])),
  };
}

/** The verdict on such a bike. */
export const verdictOn = (...[rides, bike]: Parameters<typeof adjustedBike>): Diagnosis =>
  diagnose(adjustedBike(rides, bike));

const tension = (amount: number): Turn => ['cable-tension', amount];
const [wrong, wrongAfter] = [slow('to-larger'), slow('to-smaller')];

/** Too low a tension, then turned past the mark: the six ways in which that was seen to go unnoticed. */
export const pastTheMark = [
  ['+2 clicks', [{ pattern: wrong }, { pattern: wrongAfter, after: tension(2) }], cableBike],
  ['+4 clicks', [{ pattern: wrong }, { pattern: wrongAfter, after: tension(4) }], cableBike],
  ['+6 clicks', [{ pattern: wrong }, { pattern: wrongAfter, after: tension(6) }], cableBike],
  ['+10 clicks', [{ pattern: wrong }, { pattern: wrongAfter, after: tension(10) }], cableBike],
  [
    '+4 clicks of a mild fault',
    [{ pattern: slow('to-larger', 0.08, 0.05) }, { pattern: slow('to-smaller', 0.08, 0.05), after: tension(4) }],
    cableBike,
  ],
  ['+8 electronic steps', [{ pattern: wrong }, { pattern: wrongAfter, after: ['index-offset', 8] }], electronicBike],
] as const satisfies readonly (readonly [string, ...Parameters<typeof adjustedBike>])[];
