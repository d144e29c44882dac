import type { Adjustment } from '../../src/adjustments/adjustment.ts';
import { analyseRide } from '../../src/analyse.ts';
import { diagnose } from '../../src/diagnosis/diagnose.ts';
import type { Diagnosis, DiagnosisRide } from '../../src/diagnosis/diagnosis.ts';
import type { Bike } from '../../src/drivetrain/bike.ts';
import { BikeStory } from '../../src/simulate/mechanics/bike-story.ts';
import type { FaultCause } from '../../src/simulate/setting/fault-causes.ts';
import { resolveOptions } from '../../src/simulate/setting/resolve-options.ts';
import { workUnits } from '../../src/simulate/setting/work-done.ts';
import { rideStartMs, simulateResolved } from '../../src/simulate/simulate-rides.ts';
import { truthEvents } from './truth-events.ts';

/** One bike to simulate and to diagnose. `work`: nothing was adjusted, the right thing after half of the rides, or a wrong one. */
export interface DiagnosisCase {
  readonly cause: FaultCause;
  readonly severity: 'mild' | 'severe';
  readonly seed: number;
  readonly rides: number;
  readonly work: 'none' | 'cure' | 'wrong';
  /** After how many of the rides to diagnose. */
  readonly after: readonly number[];
}

/** A verdict on one case. */
export interface CaseVerdict {
  /** `truth`: what really happened in the ride; `engine`: what the engine saw in its log. */
  readonly events: 'truth' | 'engine';
  readonly after: number;
  readonly ranked: readonly { readonly cause: string; readonly probability: number }[];
  readonly undecided: boolean;
  readonly parameter: string;
  /** Whether trouble is left that the likeliest cause does not explain. */
  readonly unexplained: boolean;
}

function summary(events: CaseVerdict['events'], after: number, verdict: Diagnosis): CaseVerdict {
  return {
    events,
    after,
    ranked: verdict.causes.map(({ cause, probability }) => ({ cause, probability })),
    undecided: verdict.undecided !== null,
    parameter: verdict.suggestion.parameter,
    unexplained: verdict.unexplained !== null,
  };
}

/** Simulates the bike's rides and diagnoses them from their truth and from their logs. */
export function runDiagnosisCase(one: DiagnosisCase): CaseVerdict[] {
  const options = resolveOptions({
    cause: one.cause,
    seed: one.seed,
    severity: one.severity,
    rides: one.rides,
    formats: [],
    ...(one.work === 'none' ? {} : { work: one.work }),
  });
  const bike: Bike = options.bike;
  const rides = simulateResolved(options);
  const adjustments = new BikeStory(options).work
    .filter(({ afterRide }) => afterRide < one.rides)
    .map(
      ({ afterRide, parameter, amount }): Adjustment => ({
        at: new Date(rideStartMs(options, afterRide - 1) + options.durationS * 1000 + 3_600_000).toISOString(),
        parameter,
        amount,
        unit: workUnits[parameter],
        note: '',
      }),
    );
  const truth = rides.map((ride) => truthEvents(ride, bike.cassette));
  const engine = rides.map(({ log }): DiagnosisRide => {
    const { trace, events } = analyseRide(log, bike);
    return {
      startMs: log.startMs,
      durationS: (log.timeS.at(-1) ?? 0) - (log.timeS[0] ?? 0),
      evidence: trace.evidence,
      events,
    };
  });
  const endMs = (after: number): number => truth[after - 1].startMs + options.durationS * 1000;
  return one.after.flatMap((after) =>
    (['truth', 'engine'] as const).map((events) =>
      summary(
        events,
        after,
        diagnose({
          bike,
          rides: (events === 'truth' ? truth : engine).slice(0, after),
          adjustments: adjustments.filter(({ at }) => Date.parse(at) < endMs(after)),
        }),
      ),
    ),
  );
}
