import { sum } from 'd3-array';
import type { Adjustment } from '../adjustments/adjustment.ts';
import { type AdjustmentComparison, compareAdjustments } from '../adjustments/compare-adjustments.ts';
import { turnsAnything } from '../adjustments/doubtful-adjustment.ts';
import { cogPitchMm } from '../drivetrain/cog-pitch.ts';
import { wilsonInterval } from '../numeric/wilson-interval.ts';
import type { Cause } from './causes.ts';
import { noCheckRide, planCheckRide, withSkipStretch } from './check-ride/plan-check-ride.ts';
import { separateCauses } from './check-ride/separate-causes.ts';
import { CURED_BELOW } from './cured-below.ts';
import type { Diagnosis, DiagnosisInput } from './diagnosis.ts';
import { buildEvidence, type RidingEvidence } from './evidence/build-evidence.ts';
import { shiftsWellSince } from './next-step/shifts-well.ts';
import { type SuggestionFacts, suggest } from './next-step/suggest.ts';
import { type Observed, observe } from './observed.ts';
import { lateralErrors, lateralOffset, stillThere, turnsNeeded } from './posterior/estimates.ts';
import { goneUnlogged } from './posterior/gone-unlogged.ts';
import { LookAhead } from './posterior/look-ahead.ts';
import { faultOnset, suddenStartMs } from './posterior/onset.ts';
import { drawParticles, type Particle } from './posterior/particles.ts';
import { type CauseProbabilities, posterior } from './posterior/posterior.ts';
import { weighRider } from './posterior/rider-load.ts';
import { likeliest } from './posterior/sensitivity.ts';
import { type WeighedCauses, weighCauses } from './posterior/weigh-causes.ts';
import { rankCauses } from './sentences/rank-causes.ts';
import { undecidedBetween } from './sentences/undecided-between.ts';

/**
 * Weighs every cause against the rides and adjustments of one bike and says what to do next. The same input gives the
 * same verdict; the work hardly grows with the number of shifts. Nothing to go by is a documented value: the priors, a
 * wide offset, and a suggestion that names no part.
 */
export function diagnose(input: DiagnosisInput): Diagnosis {
  const { bike } = input;
  const electronic = bike.actuation === 'electronic';
  const reached = reachVerdict(input);
  const { evidence, weighed, probabilities, particles, seen, top, ranked, onset, fate, comparisons } = reached;
  const { separates, checkRide } = planNextRide(input, reached);
  // a bike on which nothing at all went wrong is not open between that and a fault
  const sound = top === 'no-fault' && seen.all.trouble + seen.events === 0;
  const facts: SuggestionFacts = {
    ranked,
    seen,
    // of every ride, also those that could not be weighed: damage is no matter of likelihood
    drops: observe(input.rides, bike).drops,
    undecided: saysNothing(seen) || sound ? null : undecidedBetween(weighed, probabilities, ranked, electronic),
    onset,
    rider: weighRider(particles, evidence),
    clicks: turnsNeeded(particles, top, electronic),
    ...fate,
    checkRide,
    electronic,
  };
  return {
    causes: ranked,
    weighed: weighedRides(evidence, seen),
    lateralOffsetMm: lateralOffset(particles),
    lateralErrorMm: lateralErrors(particles, bike),
    clicks: facts.clicks,
    onset,
    riderPart: facts.rider,
    separates,
    undecided: facts.undecided,
    checkRide,
    stillThere: fate.stillThere,
    cured: fate.cured,
    shiftsWellSince: fate.wellSince,
    comparisons,
    notes: evidence.notes,
    suggestion: suggest(facts),
  };
}

/** What was seen of a bike, how likely that makes each cause, and what became of the likeliest. */
interface Reached {
  readonly evidence: RidingEvidence;
  readonly weighed: WeighedCauses;
  readonly probabilities: CauseProbabilities;
  readonly particles: readonly Particle[];
  readonly lookAhead: LookAhead;
  readonly seen: Observed;
  readonly top: Cause;
  readonly ranked: Diagnosis['causes'];
  readonly onset: Diagnosis['onset'];
  readonly comparisons: readonly AdjustmentComparison[];
  readonly fate: ReturnType<typeof faultNow>;
}

function reachVerdict(input: DiagnosisInput): Reached {
  const { bike } = input;
  const adjustments = input.adjustments.filter(turnsAnything);
  const evidence = buildEvidence(input);
  const weighed = weighCauses(evidence, {
    cassetteLength: bike.cassette.length,
    cogPitchMm: cogPitchMm(bike),
    electronic: bike.actuation === 'electronic',
  });
  const probabilities = posterior(weighed);
  const particles = drawParticles(weighed, probabilities);
  const lookAhead = new LookAhead(particles, weighed.model);
  const seen = observe(evidence.rides, bike);
  const top = likeliest(probabilities);
  const onset = faultOnset(particles, top, evidence, lookAhead.whereItShows(top));
  // over all rides, also those too old to be weighed: the report has one answer to whether an adjustment helped
  const comparisons = compareAdjustments(input.rides, adjustments, bike.cassette.length, suddenStartMs(onset));
  const fate = faultNow(input, { evidence, comparisons, particles, top, adjustments });
  const ranked = rankCauses(probabilities, { seen, comparisons, onset });
  return { evidence, weighed, probabilities, particles, lookAhead, seen, top, ranked, onset, comparisons, fate };
}

/** Where nothing was seen the verdict is what was taken for granted: nothing to part, nothing that hangs on more. */
const saysNothing = (seen: Observed): boolean => seen.all.shifts + seen.events === 0;

/** What the next ride may tell: by what the two likeliest causes part, and the check ride for it. */
function planNextRide(
  { bike, unseenCogs, cogsKnown }: DiagnosisInput,
  { weighed, lookAhead, seen, top, ranked, fate }: Reached,
): Pick<Diagnosis, 'separates' | 'checkRide'> {
  const { cassette } = bike;
  const electronic = bike.actuation === 'electronic';
  const unseen = new Set(unseenCogs);
  // a fault that was cured shows nothing any more by which it could be told apart
  const parts = !saysNothing(seen) && !fate.cured && !fate.wellSince;
  const separates = parts ? separateCauses(weighed, [top, ranked[1].cause], { cassette, unseen, electronic }) : null;
  const plan = cogsKnown === false ? noCheckRide : planCheckRide(lookAhead, cassette, weighed.model.usage, unseen);
  const mostUsed = mostUsedCog(seen);
  const addsSkips = separates?.bySkips && !unseen.has(mostUsed);
  return { separates, checkRide: addsSkips ? withSkipStretch(plan, cassette[mostUsed]) : plan };
}

interface Weighing {
  readonly evidence: RidingEvidence;
  readonly comparisons: readonly AdjustmentComparison[];
  readonly particles: readonly Particle[];
  readonly top: Cause;
  readonly adjustments: readonly Adjustment[];
}

const LIKELIER_THAN_NOT = 0.5;

/** Whether the likeliest fault is still there after the last adjustment, and whether anybody has ridden since. */
function faultNow(
  { bike }: DiagnosisInput,
  weighing: Weighing,
): Pick<SuggestionFacts, 'cured' | 'wellSince' | 'untested'> & Pick<Diagnosis, 'stillThere'> {
  const { evidence, comparisons, particles, top, adjustments } = weighing;
  const last = comparisons.at(-1);
  const untested = last !== undefined && last.after.shifts === 0 ? last : null;
  // what nobody has ridden on since may have cured anything: that is no finding
  const tested = evidence.groups.length > 0 && !untested;
  const left = tested ? stillThere(particles, top) : 1;
  const accounts = goneUnlogged(particles, top) < LIKELIER_THAN_NOT;
  const cured = left < CURED_BELOW && !!last && accounts && !troubledAfter(last);
  const wellSince = untested || cured ? null : shiftsWellSince(evidence.rides, adjustments, bike);
  return { stillThere: left, cured, wellSince, untested };
}

/** Where more than this share of the shifts since the last adjustment went wrong, for sure, nothing was cured. Assumptions of ours. */
const NO_CURE_ABOVE = 0.03;
const LEAST_TROUBLE = 3;

/** Whether the rides since an adjustment fail: in one direction, or on one cog, since a fault at an end cog is lost among all shifts. */
function troubledAfter({ cogs }: AdjustmentComparison): boolean {
  const directions = (['to-larger', 'to-smaller'] as const).map((wanted) =>
    cogs.filter(({ direction }) => direction === wanted),
  );
  return [...directions, ...cogs.map((one) => [one])].some((rows) => {
    const trouble = sum(rows, ({ after }) => after.late + after.missed + after.overshot);
    const shifts = sum(rows, ({ after }) => after.shifts);
    return trouble >= LEAST_TROUBLE && wilsonInterval(trouble, shifts).low > NO_CURE_ABOVE;
  });
}

const mostUsedCog = ({ pedallingShare }: Observed): number => pedallingShare.indexOf(Math.max(...pedallingShare));

const weighedRides = ({ rides }: RidingEvidence, seen: Observed): Diagnosis['weighed'] => ({
  rides: rides.length,
  judgedShifts: seen.all.shifts,
  weakShifts: seen.weakShifts,
  events: seen.events,
  pedallingHours: seen.pedallingHours,
});
