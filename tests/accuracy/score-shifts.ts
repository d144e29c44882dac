import type { ShiftEvent } from '../../src/shifts/ride-events.ts';
import type { TrueShift } from '../../src/simulate/truth/truth-schema.ts';
import type { ConfidenceGatherer } from './confidence-bins.ts';
import type { Say } from './disagreement.ts';
import { ALONE_S, pairShifts, rightOutcomes } from './matching-rules.ts';
import { noOutcomes, noScore, type RideScore } from './ride-score.ts';

type Counts = { found: number; overlooked: number; wrong: number };

/** Sets every judged shift of a ride against its true outcome. Shifts unjudged on either side are counted and left out of the rest. */
export function scoreShifts(
  truth: readonly TrueShift[],
  reported: readonly ShiftEvent[],
  cassette: readonly number[],
  confidence: ConfidenceGatherer,
  say: Say,
): Pick<
  RideScore,
  | 'missed'
  | 'lateOrMissed'
  | 'missedStrictly'
  | 'lateOrMissedStrictly'
  | 'missedAlone'
  | 'lateOrMissedAlone'
  | 'overshot'
  | 'shifts'
  | 'outcomes'
> {
  const partner = pairShifts(truth, reported, cassette);
  const missed: Counts = { found: 0, overlooked: 0, wrong: 0 };
  const lateOrMissed: Counts = { ...missed };
  const missedStrictly: Counts = { ...missed };
  const lateOrMissedStrictly: Counts = { ...missed };
  const missedAlone: Counts = { ...missed };
  const lateOrMissedAlone: Counts = { ...missed };
  const overshot: Counts = { ...missed };
  const outcomes = noOutcomes();
  const shifts = {
    ...noScore().shifts,
    truly: truth.length,
    reported: reported.length,
    paired: partner.filter((r) => r >= 0).length,
  };
  for (const { outcome } of reported) {
    if (outcome === 'unjudged') shifts.unjudgedReported++;
    else if (outcome !== 'clean') shifts.troubleReported++;
  }
  truth.forEach((shift, t) => {
    if (shift.outcome === 'unjudged') shifts.unjudgedTruly++;
    const said = reported[partner[t]];
    if (!said || shift.outcome === 'unjudged') return;
    if (said.outcome === 'unjudged') {
      shifts.leftUnjudged++;
      if (isTrouble(shift.outcome)) shifts.leftInTrouble++;
      return;
    }
    const { outcome } = said;
    const right = rightOutcomes(shift);
    if (right.length > 1) shifts.borderline++;
    // a borderline shift is what the program says it is, as long as that is one of the two
    const truly = right.includes(outcome) ? outcome : shift.outcome;
    shifts.judged++;
    outcomes[truly][outcome]++;
    count(missed, truly === 'missed', outcome === 'missed');
    count(lateOrMissed, isTrouble(truly), isTrouble(outcome));
    count(missedStrictly, shift.outcome === 'missed', outcome === 'missed');
    count(lateOrMissedStrictly, isTrouble(shift.outcome), isTrouble(outcome));
    const beforeS = truth[t - 1]?.recordedAtS ?? Number.NEGATIVE_INFINITY;
    const afterS = truth[t + 1]?.recordedAtS ?? Number.POSITIVE_INFINITY;
    const alone = Math.min(shift.recordedAtS - beforeS, afterS - shift.recordedAtS) >= ALONE_S;
    if (alone) {
      count(missedAlone, truly === 'missed', outcome === 'missed');
      count(lateOrMissedAlone, isTrouble(truly), isTrouble(outcome));
    }
    count(overshot, truly === 'overshot', outcome === 'overshot');
    confidence.add(said.confidence, truly === outcome);
    if (truly === outcome) shifts.outcomeRight++;
    else
      say(
        `${truly} judged ${outcome}${alone ? ', alone' : ''}`,
        shift.recordedAtS,
        `${shift.fromTeeth} to ${shift.toTeeth} ${shift.outcome}, ${shift.crankRevs ?? 'no'} turns`,
        `${outcome}, ${said.crankRevs?.toFixed(1) ?? 'no'} turns`,
        said.confidence,
      );
  });
  return {
    missed,
    lateOrMissed,
    missedStrictly,
    lateOrMissedStrictly,
    missedAlone,
    lateOrMissedAlone,
    overshot,
    shifts,
    outcomes,
  };
}

const isTrouble = (outcome: string): boolean => outcome === 'late' || outcome === 'missed';

function count(into: Counts, truly: boolean, said: boolean): void {
  if (truly && said) into.found++;
  else if (truly) into.overlooked++;
  else if (said) into.wrong++;
}
