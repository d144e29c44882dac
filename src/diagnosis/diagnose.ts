import { adjustmentKey } from '../adjustments/adjustment-key.ts';
import { adjustmentsThatCount } from '../adjustments/adjustments-that-count.ts';
import { cancelledOut } from '../adjustments/cancelled-out.ts';
import { type AdjustmentComparison, compareAdjustments } from '../adjustments/compare-adjustments.ts';
import type { Look } from '../adjustments/looks.ts';
import { cogPitchMm } from '../drivetrain/cog-pitch.ts';
import { beside, isAnotherFault, onsetSince, ridesToLookAtAlone, withAnotherFault } from './another-since.ts';
import { type Cause, causes } from './causes.ts';
import { planNextRide } from './check-ride/plan-next-ride.ts';
import type { Diagnosis, DiagnosisInput } from './diagnosis.ts';
import { buildEvidence, type RidingEvidence } from './evidence/build-evidence.ts';
import { FEWEST_SHIFTS } from './fewest-shifts.ts';
import { suggest } from './next-step/suggest.ts';
import type { SuggestionFacts } from './next-step/suggestion-facts.ts';
import { helpedAgainst, wrongWays } from './next-step/wrong-ways.ts';
import { type BikeNow, bikeNow } from './now/bike-now.ts';
import { limitOrHanger as mayBeHanger } from './now/limit-or-hanger.ts';
import { looksThatStand } from './now/looks-that-stand.ts';
import { nowVerdict } from './now/now-verdict.ts';
import { shiftsWellSince } from './now/shifts-well.ts';
import { type Observed, observe } from './observed.ts';
import { lateralErrors, lateralOffset, type TurnsAsked, turnsNeeded } from './posterior/estimates.ts';
import { LookAhead } from './posterior/look-ahead.ts';
import { faultOnset, suddenStartMs } from './posterior/onset.ts';
import { drawParticles, type Particle } from './posterior/particles.ts';
import { weighRider } from './posterior/rider-load.ts';
import { likeliest } from './posterior/sensitivity.ts';
import { type WeighedCauses, weighCauses } from './posterior/weigh-causes.ts';
import { whereItShowed } from './posterior/where-it-showed.ts';
import { foundRightSentences } from './sentences/found-right-sentences.ts';
import { onsetBesideReturn } from './sentences/onset-beside-return.ts';
import { rankCauses } from './sentences/rank-causes.ts';
import { undecidedBetween } from './sentences/undecided-between.ts';
import { type CausesWeighed, causesWeighed } from './unexplained/fault-for-sure.ts';
import { causesInQuestion, findUnexplained } from './unexplained/find-unexplained.ts';
import { unexplainedTrouble } from './unexplained/unexplained-trouble.ts';

/**
 * Weighs every cause against the rides and adjustments of one bike and says what to do next. The same input gives the
 * same verdict; the work hardly grows with the number of shifts. Nothing to go by is a documented value: the priors, a
 * wide offset, and a suggestion that names no part.
 */
export function diagnose(input: DiagnosisInput): Diagnosis {
  const whole = lookAt(input);
  const newer = ridesToLookAtAlone(input, whole.facts);
  const alone = newer && lookAt(newer, whole.facts);
  const verdict = verdictOf(whole, input.bike);
  return alone && isAnotherFault(whole.facts, alone)
    ? withAnotherFault(verdict, verdictOf(alone, input.bike))
    : verdict;
}

/** Rides with all that the next step hangs on, and the step. */
interface Looked {
  readonly reached: Reached;
  readonly facts: SuggestionFacts;
  readonly separates: Diagnosis['separates'];
  readonly suggestion: Diagnosis['suggestion'];
  readonly limitOrHanger: boolean;
}

/** @param before what all rides show, where `input` holds those since the last adjustment alone */
function lookAt(input: DiagnosisInput, before: SuggestionFacts | null = null): Looked {
  const { bike } = input;
  const electronic = bike.actuation === 'electronic';
  const reached = reachVerdict(input, before);
  const { evidence, particles, seen, top, ranked, onset, now, comparisons, foundRight } = reached;
  const undecided = whatIsOpen(reached, electronic);
  const unexplained = leftUnexplained(reached, undecided ? undecided.between : [top], electronic);
  const rider = weighRider(particles, evidence);
  const { separates, checkRide } = planNextRide(input, { ...reached, undecided, unexplained, rider });
  const facts: SuggestionFacts = {
    ranked,
    seen,
    // of every ride, also those that could not be weighed: damage is no matter of likelihood
    drops: before?.drops ?? observe(input.rides, bike).drops,
    undatedShifts: evidence.undatedShifts,
    ridesLeftOut: input.rides.length === 0 ? (input.ridesLeftOut ?? 0) : 0,
    undecided,
    unexplained,
    failsOneWay: reached.failsOneWay,
    ...{ onset, rider },
    clicks: reached.clicks,
    clicksFor: (cause) => turnsNeeded(particles, cause, turnsAsked(evidence, electronic)),
    ...{ now, comparisons, foundRight, checkRide, electronic },
    wellSince: reached.wellSince,
  };
  return {
    ...{ reached, facts, separates, suggestion: suggest(facts) },
    limitOrHanger: mayBeHanger({ ...input, cause: top, foundRight }),
  };
}

function verdictOf(
  { reached, facts, separates, suggestion, limitOrHanger }: Looked,
  bike: DiagnosisInput['bike'],
): Diagnosis {
  const { evidence, particles, seen, ranked, now, foundRight } = reached;
  return {
    causes: withLooks(ranked, foundRight),
    weighed: weighedRides(evidence, seen),
    lateralOffsetMm: lateralOffset(particles),
    lateralErrorMm: lateralErrors(particles, bike),
    clicks: facts.clicks,
    onset: facts.onset,
    riderPart: facts.rider,
    separates,
    undecided: facts.undecided,
    checkRide: facts.checkRide,
    unexplained: facts.unexplained,
    now: nowVerdict(now),
    stillThere: now.stillThere,
    limitOrHanger,
    anotherSince: null,
    cured: now.setting === 'cured',
    shiftsWellSince: reached.wellSince,
    comparisons: reached.compared,
    notes: evidence.notes,
    suggestion,
    wrongWays: suggestion.namesCause ? wrongWays(facts) : [],
    helpedAgainst: suggestion.namesCause ? helpedAgainst(facts) : [],
  };
}

/** The causes with what was looked at for each and found right beside their evidence. */
const withLooks = (ranked: Diagnosis['causes'], foundRight: readonly Look[]): Diagnosis['causes'] =>
  ranked.map((one) => ({ ...one, evidence: [...one.evidence, ...foundRightSentences(one.cause, foundRight)] }));

/** What was seen of a bike, how likely that makes each cause, and what became of the likeliest. */
interface Reached extends CausesWeighed {
  readonly evidence: RidingEvidence;
  readonly weighed: WeighedCauses;
  readonly particles: readonly Particle[];
  readonly lookAhead: LookAhead;
  readonly seen: Observed;
  readonly top: Cause;
  readonly ranked: Diagnosis['causes'];
  readonly onset: Diagnosis['onset'];
  readonly compared: readonly AdjustmentComparison[];
  /** Without what was turned and taken back. */
  readonly comparisons: readonly AdjustmentComparison[];
  readonly foundRight: readonly Look[];
  readonly clicks: Diagnosis['clicks'];
  readonly now: BikeNow;
  readonly wellSince: Diagnosis['shiftsWellSince'];
}

function reachVerdict(input: DiagnosisInput, before: SuggestionFacts | null): Reached {
  const { bike } = input;
  const adjustments = adjustmentsThatCount(input.adjustments, bike.actuation);
  const cancelled = cancelledOut(adjustments, input.rides);
  const standing = adjustments.filter((one) => !cancelled.has(adjustmentKey(one)));
  const evidence = buildEvidence(input);
  const weighed = weighCauses(evidence, {
    cassetteLength: bike.cassette.length,
    cogPitchMm: cogPitchMm(bike),
    electronic: bike.actuation === 'electronic',
  });
  const seen = observe(evidence.rides, bike);
  const { probabilities, failsOneWay } = causesWeighed(weighed, seen);
  const particles = drawParticles(weighed, probabilities);
  const lookAhead = new LookAhead(particles, weighed.model);
  const top = likeliest(probabilities);
  const began = faultOnset(particles, top, evidence, whereItShowed(particles, weighed.model, top));
  // over all rides, also those too old to be weighed: the report has one answer to whether an adjustment helped
  const compared = compareAdjustments(input.rides, adjustments, bike.cassette.length, suddenStartMs(began));
  const comparisons = compared.filter((one) => !one.cancelledOut);
  const onset = before ? onsetSince(began) : onsetBesideReturn(began, top, comparisons);
  const loadKnown = Number.isFinite(evidence.edges.highNm);
  const told = { seen, failsOneWay, loadKnown, comparisons, onset, rides: evidence.rides.length };
  const ranked = rankCauses(probabilities, told);
  const clicks = turnsNeeded(particles, top, turnsAsked(evidence, bike.actuation === 'electronic'));
  const { rides } = input;
  const foundRight = looksThatStand(evidence.looks, { rides, adjustments, beganMs: suddenStartMs(began) });
  const anyFault = 1 - probabilities[causes.indexOf('no-fault')];
  const well = shiftsWellSince(evidence.rides, standing, bike, { cause: top, anyFault });
  const now = bikeNow({
    ...{ bike, rides, adjustments: standing, evidence, particles, cause: top, clicks },
    probability: ranked[0].probability,
    judgedShifts: seen.all.shifts,
    wellSince: well,
  });
  const wellSince = answersFirst(now) ? null : well;
  const found = { evidence, weighed, probabilities, failsOneWay, particles, lookAhead, seen, top };
  const alone = { ...found, ranked, onset, compared, comparisons, foundRight, clicks, now, wellSince };
  return before ? { ...alone, now: beside(now, before), comparisons: before.comparisons } : alone;
}

const turnsAsked = ({ groups }: RidingEvidence, electronic: boolean): TurnsAsked => ({
  electronic,
  adjusted: groups.flatMap(({ adjustments }) => adjustments.map(({ parameter }) => parameter)),
});

/** Whether what became of the last adjustment, of a limit past which the chain was lost, or a chain lost since, is to be told before that the newest rides shift well. */
const answersFirst = ({ setting, since, trial }: BikeNow): boolean =>
  ['untested', 'cured', 'overdone'].includes(setting) ||
  (setting !== 'same' && trial !== null && trial.before.lost > 0) ||
  since.lost('past-largest') + since.lost('past-smallest') > 0;

/** Where nothing was seen the verdict is what was taken for granted: nothing to part, nothing that hangs on more. */
const saysNothing = (seen: Observed): boolean => seen.all.shifts + seen.events === 0;

/** Between which causes it is open; null too where nothing at all went wrong, for a bike in order is not open between that and a fault. */
function whatIsOpen(
  { weighed, probabilities, failsOneWay, ranked, seen, top }: Reached,
  electronic: boolean,
): Diagnosis['undecided'] {
  const sound = top === 'no-fault' && seen.all.trouble + seen.events === 0;
  if (sound || saysNothing(seen)) return null;
  return undecidedBetween(weighed, probabilities, ranked, { seen, electronic, failsOneWay });
}

/** What stands beside the verdict; null too where too few shifts were judged to name anything. */
function leftUnexplained(
  { weighed, ranked, seen }: Reached,
  named: readonly Cause[],
  electronic: boolean,
): Diagnosis['unexplained'] {
  if (seen.all.shifts < FEWEST_SHIFTS) return null;
  const found = findUnexplained(weighed, causesInQuestion(ranked, named));
  return found && unexplainedTrouble(found, seen, electronic);
}

const weighedRides = ({ rides }: RidingEvidence, seen: Observed): Diagnosis['weighed'] => ({
  rides: rides.length,
  judgedShifts: seen.all.shifts,
  weakShifts: seen.weakShifts,
  events: seen.events,
  pedallingHours: seen.pedallingHours,
});
