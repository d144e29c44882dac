import { type Cause, causes } from '../../src/diagnosis/causes.ts';
import { endsAtRisk } from '../../src/diagnosis/check-ride/ends-at-risk.ts';
import { planCheckRide } from '../../src/diagnosis/check-ride/plan-check-ride.ts';
import { diagnose } from '../../src/diagnosis/diagnose.ts';
import type { CheckRide, Diagnosis, DiagnosisInput } from '../../src/diagnosis/diagnosis.ts';
import { buildEvidence } from '../../src/diagnosis/evidence/build-evidence.ts';
import { LookAhead } from '../../src/diagnosis/posterior/look-ahead.ts';
import { drawParticles } from '../../src/diagnosis/posterior/particles.ts';
import { posterior } from '../../src/diagnosis/posterior/posterior.ts';
import { weighCauses } from '../../src/diagnosis/posterior/weigh-causes.ts';
import { cogPitchMm } from '../../src/drivetrain/cog-pitch.ts';
import { families, type GeneratorOptions, generateRides } from '../diagnosis/event-generator.ts';
import { cassette } from '../diagnosis/pattern-ride.ts';

/** How often the true cause is named first, and its mean probability, over some bikes. */
export interface TruthFound {
  readonly top1: number;
  readonly truth: number;
}

/** How much faster a check ride finds the cause than as many ordinary shifts. */
interface CheckRideGain {
  readonly bikes: number;
  /** Mean number of shifts in a plan. */
  readonly plannedShifts: number;
  readonly before: TruthFound;
  readonly planned: TruthFound;
  readonly ordinary: TruthFound;
}

interface CheckedBike {
  readonly cause: Cause;
  readonly asked: boolean;
  readonly shifts: number;
  readonly before: Diagnosis;
  readonly planned: Diagnosis;
  readonly ordinary: Diagnosis;
}

const bike = { name: 'Check ride', chainrings: [32], cassette, actuation: 'cable' as const };

/**
 * Short rides of bikes with every cause, made straight as events by three sets of plain rules (tests/diagnosis); then a check ride against as
 * many ordinary shifts.
 *
 * @returns `safe`: every bike for which shifts can be planned that are safe; `asked`: those of them whose verdict asks for a check ride
 */
export function checkRideGain(seeds: number, firstSeed: number): { safe: CheckRideGain; asked: CheckRideGain } {
  const bikes = causes.flatMap((cause) =>
    Array.from({ length: seeds }, (_, i) =>
      checkBike({
        ...{ cause, family: families[i % families.length], severity: 'severe', seed: firstSeed + i },
        ...{ rides: 2, shiftsPerRide: 60, detectionNoise: 0.01 },
      }),
    ).flat(),
  );
  return { safe: gainOf(bikes), asked: gainOf(bikes.filter(({ asked }) => asked)) };
}

/** One bike before and after its check ride; none where no shift is safe to plan. */
function checkBike(options: GeneratorOptions): CheckedBike[] {
  const first = generateRides(options).slice(0, 1);
  const input = { bike, rides: first, adjustments: [] };
  const before = diagnose(input);
  const plan = anyPlan(input, before);
  const moves = plan.blocks.flatMap(({ count, fromTeeth, toTeeth, load }) =>
    Array.from({ length: count }, () => ({
      fromCog: cassette.indexOf(fromTeeth),
      toCog: cassette.indexOf(toTeeth),
      firm: load === 'firm',
    })),
  );
  if (moves.length === 0) return [];
  const [, ride] = generateRides({ ...options, planned: { ride: 1, moves } });
  const [, habit] = generateRides({ ...options, shiftsOnRide: { ride: 1, shifts: moves.length } });
  return [
    {
      ...{ cause: options.cause, asked: before.checkRide.blocks.length > 0, shifts: moves.length, before },
      planned: diagnose({ ...input, rides: [...first, ride] }),
      ordinary: diagnose({ ...input, rides: [...first, habit] }),
    },
  ];
}

/** The check ride as it would be planned for any verdict, also where none is asked for. */
function anyPlan(input: DiagnosisInput, { undecided, causes: [first] }: Diagnosis): CheckRide {
  const weighed = weighCauses(buildEvidence(input), {
    ...{ cassetteLength: cassette.length, cogPitchMm: cogPitchMm(bike), electronic: false },
  });
  const particles = drawParticles(weighed, posterior(weighed));
  const atRisk = endsAtRisk(particles, new Set(), undecided?.between ?? [first.cause]);
  const lookAhead = new LookAhead(particles, weighed.model);
  return planCheckRide(lookAhead, cassette, weighed.model.usage, { unseen: new Set(), atRisk });
}

function gainOf(bikes: readonly CheckedBike[]): CheckRideGain {
  const mean = (value: (one: CheckedBike) => number): number =>
    bikes.reduce((sum, one) => sum + value(one), 0) / bikes.length;
  const found = (when: 'before' | 'planned' | 'ordinary'): TruthFound => ({
    top1: mean((one) => (one[when].causes[0].cause === one.cause ? 1 : 0)),
    truth: mean((one) => one[when].causes.find(({ cause }) => cause === one.cause)?.probability ?? 0),
  });
  return {
    bikes: bikes.length,
    plannedShifts: mean(({ shifts }) => shifts),
    before: found('before'),
    planned: found('planned'),
    ordinary: found('ordinary'),
  };
}
