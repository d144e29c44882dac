import type { DiagnosisInput, DiagnosisRide } from '../../src/diagnosis/diagnosis.ts';
import { openExpectation } from '../../src/shifts/outcomes/open-expectation.ts';
import type { DropSide, GhostShiftEvent, Outcome, ShiftEvent, SkipEvent } from '../../src/shifts/ride-events.ts';

export const cassette = [10, 12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51];
export const cableBike: DiagnosisInput['bike'] = { name: 'Hut bike 7', chainrings: [32], cassette, actuation: 'cable' };
export const electronicBike: DiagnosisInput['bike'] = { ...cableBike, actuation: 'electronic' };

/** Shares of the shifts onto a cog that go wrong. */
export interface Pattern {
  readonly late?: number;
  readonly missed?: number;
  readonly overshot?: number;
}

export interface PatternRide {
  /** What happens to shifts onto a cog (index; share 0..1 across the cassette) in a direction. */
  readonly pattern: (cog: number, larger: boolean, share: number) => Pattern;
  /** Shifts onto each cog in each direction. Default 12. */
  readonly shifts?: number;
  readonly day?: number;
  readonly ghosts?: readonly (readonly [from: number, to: number])[];
  readonly drops?: readonly (readonly [side: DropSide, afterShiftTo: number | null])[];
  readonly skipsOn?: readonly number[];
  readonly weak?: boolean;
  /** Trouble of the shifts at the highest torque, when torque is given at all. */
  readonly torque?: (index: number) => number;
}

/** Outcomes spread evenly: exactly the wanted share of each, no chance in it. */
function outcomeOf(index: number, { late = 0, missed = 0, overshot = 0 }: Pattern): Outcome {
  const turn = (share: number, offset: number): boolean =>
    Math.floor((index + 1) * share + offset) > Math.floor(index * share + offset);
  if (turn(missed, 0.5)) return 'missed';
  if (turn(late, 0.3)) return 'late';
  return turn(overshot, 0.7) ? 'overshot' : 'clean';
}

/** The same shift where only what the rider did next is known: he answered a missed one. */
function reaction(outcome: Outcome): Partial<ShiftEvent> {
  const missed = outcome === 'clean' ? 0.01 : 0.35;
  return {
    outcome: 'unjudged',
    unjudgedBecause: 'no-cadence',
    crankRevs: null,
    probability: { clean: 1 - missed, late: 0, missed, overshot: 0 },
    expected: { clean: 0.97, late: 0, missed: 0.03, overshot: 0 },
    weak: true,
  };
}

/** A ride made of counts: for trade facts, where chance would only be in the way. */
export function patternRide(ride: PatternRide): DiagnosisRide {
  const count = ride.shifts ?? 12;
  const last = cassette.length - 1;
  const shifts: ShiftEvent[] = [];
  for (let cog = 0; cog <= last; cog++)
    for (const larger of [true, false]) {
      if (larger ? cog === 0 : cog === last) continue;
      for (let i = 0; i < count; i++) {
        const outcome = outcomeOf(i, ride.pattern(cog, larger, cog / last));
        const timeS = 60 + ((shifts.length * 7) % 7000);
        shifts.push({
          timeS,
          lastTimeS: timeS,
          fromCog: larger ? cog - 1 : cog + 1,
          toCog: cog,
          cogsToCross: 1,
          direction: larger ? 'to-larger' : 'to-smaller',
          unjudgedBecause: null,
          outcome,
          crankRevs: outcome === 'clean' ? 0.7 : outcome === 'late' ? 2.4 : null,
          confidence: 0.97,
          probability: { clean: 0.01, late: 0.01, missed: 0.01, overshot: 0, [outcome]: 0.97 },
          expected: openExpectation,
          torqueNm: ride.torque?.(i) ?? Number.NaN,
          cadenceRpm: 80,
          weak: false,
          ...(ride.weak && reaction(outcome)),
        });
      }
    }
  shifts.sort((a, b) => a.timeS - b.timeS);
  const at = (i: number): number => 300 + i * 211;
  return {
    startMs: Date.UTC(2026, 4, 1 + (ride.day ?? 0), 7),
    durationS: 7200,
    evidence: ride.weak ? 'commands-only' : 'full',
    events: {
      shifts,
      ghostShifts: (ride.ghosts ?? []).map(
        ([fromCog, toCog], i): GhostShiftEvent => ({
          timeS: at(i),
          fromCog,
          toCog,
          heldS: 3,
          confidence: 0.9,
          torqueNm: 20,
        }),
      ),
      chainDrops: (ride.drops ?? []).map(([side, afterShiftTo], i) => ({
        timeS: at(i) + 3,
        side,
        afterShiftTo,
        confidence: 0.9,
      })),
      skips: (ride.skipsOn ?? []).map((cog, i): SkipEvent => ({ timeS: at(i), cog, confidence: 0.9, torqueNm: 50 })),
      pedallingSByCog: Float64Array.from(cassette, (_, cog) => 300 + 100 * (cog % 3)),
    },
  };
}

/** A well set bike: one shift in a hundred late. */
export const healthyPattern = (cog: number): Pattern => (cog === 6 ? { late: 0.08 } : {});

/** Too low a cable tension. */
export const slowToLarger = (_: number, larger: boolean): Pattern => (larger ? { late: 0.17, missed: 0.17 } : {});
/** A bent hanger. */
export const bentHanger = (_: number, larger: boolean, share: number): Pattern => {
  const short = larger ? 1 - 2 * share : 2 * share - 1;
  return short > 0.3 ? { late: 0.3 * short, missed: 0.3 * short } : {};
};

/** Six rides through which friction of the cable grows: shifts to smaller cogs suffer, to larger ones hardly. */
export function ridesOfGrowingFriction(): readonly DiagnosisRide[] {
  return [0, 0, 0.45, 0.5, 1, 1].map((size, day) =>
    patternRide({
      day,
      pattern: (cog, larger) =>
        larger ? { late: cog % 3 ? 0 : 0.2 * size } : { late: 0.42 * size, missed: 0.12 * size },
    }),
  );
}
