import { analyseRide } from '../../src/analyse.ts';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import { chainDrops } from '../../src/shifts/drops/chain-drops.ts';
import { simulateRides } from '../../src/simulate/simulate-rides.ts';
import { ConfidenceGatherer } from './confidence-bins.ts';
import type { Disagreement, Say } from './disagreement.ts';
import type { PlannedRide } from './ride-plan.ts';
import { noScore, type RideScore, type TraceGroup } from './ride-score.ts';
import { scoreShifts } from './score-shifts.ts';
import { scoreTrace } from './score-trace.ts';
import { scoreDrops, scoreGhosts, scoreSkips } from './score-unasked.ts';
import { withoutRecords } from './without-records.ts';

/** A scored ride, and where program and simulator disagree. */
export interface ScoredRide {
  readonly score: RideScore;
  readonly disagreements: readonly Disagreement[];
}

/** Simulates a planned ride, analyses it and counts what was right. */
export function scoreRide({ options, alsoWithoutRecords }: PlannedRide): ScoredRide {
  const [ride] = simulateRides(options);
  const { bike } = options;
  const { log, truth } = ride;
  const source = truth.recorder.speedSource;
  const { trace, events } = analyseRide(log, bike);
  const disagreements: Disagreement[] = [];
  const say: Say = (kind, atS, truly, reported, confidence) => {
    disagreements.push({ kind, atS, truly, reported, confidence });
  };
  const ofShifts = new ConfidenceGatherer();
  const ofEvents = new ConfidenceGatherer();
  const { drops, dropSides } = scoreDrops(truth, events.chainDrops, ofEvents, say);
  const score = {
    ...noScore(),
    hours: truth.durationS / 3600,
    confidence: { shifts: ofShifts.sums, events: ofEvents.sums },
  };
  const blindGroup: TraceGroup = `${source}, no gear records`;

  if (log.gearRecords.timeS.length === 0)
    return {
      score: {
        ...score,
        chainDropsWithoutRecords: drops,
        dropSidesWithoutRecords: dropSides,
        trace: { ...score.trace, [blindGroup]: scoreTrace(ride, trace) },
      },
      disagreements,
    };

  const group: TraceGroup = `${source}, ${options.gearRecords === 'rear-only' ? 'rear records only' : 'gear records'}`;
  const blindLog = withoutRecords(log);
  const blind = alsoWithoutRecords ? traceGears(blindLog, bike) : null;
  const blindDrops = blind && scoreDrops(truth, chainDrops(blindLog, blind), new ConfidenceGatherer(), () => {});
  return {
    score: {
      ...score,
      ...scoreShifts(truth.shifts, events.shifts, bike.cassette, ofShifts, say),
      ...scoreGhosts(truth, events.ghostShifts, bike.cassette, ofEvents, say),
      ...scoreSkips(truth, events.skips, ofEvents, say),
      chainDrops: drops,
      dropSides,
      chainDropsWithoutRecords: blindDrops?.drops ?? score.chainDropsWithoutRecords,
      dropSidesWithoutRecords: blindDrops?.dropSides ?? score.dropSidesWithoutRecords,
      trace: {
        ...score.trace,
        [group]: scoreTrace(ride, trace),
        ...(blind ? { [blindGroup]: scoreTrace({ log: blindLog, truth }, blind) } : {}),
      },
    },
    disagreements,
  };
}
