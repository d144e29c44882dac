import type { Adjustment } from '../adjustments/adjustment.ts';
import { adjustmentsThatCount } from '../adjustments/adjustments-that-count.ts';
import { withoutCancelled } from '../adjustments/cancelled-out.ts';
import { type AdjustmentComparison, compareAdjustments } from '../adjustments/compare-adjustments.ts';
import type { Look } from '../adjustments/looks.ts';
import { cogPitchMm } from '../drivetrain/cog-pitch.ts';
import { type Cause, causes } from './causes.ts';
import type { Diagnosis, DiagnosisInput, Onset, ShiftsWellSince, TurnEstimate } from './diagnosis.ts';
import { buildEvidence, type RidingEvidence } from './evidence/build-evidence.ts';
import type { SuggestionFacts } from './next-step/suggestion-facts.ts';
import { type BikeNow, bikeNow } from './now/bike-now.ts';
import { limitsTurnedIn, lookedOver, looksThatStand, seenTo } from './now/looks-that-stand.ts';
import { notRiddenOn } from './now/not-ridden-on.ts';
import { type OvertakenLook, overtakenLooks } from './now/overtaken-looks.ts';
import { shiftsWellSince } from './now/shifts-well.ts';
import { faultsTurnedTo, spoiledShares } from './now/spoiled-by-turning.ts';
import { isTurnable, turnedTowards } from './now/turned-towards.ts';
import { turnedWhileWell } from './now/well-at-first.ts';
import { type Observed, observe } from './observed.ts';
import { turnsNeeded } from './posterior/estimates.ts';
import { LookAhead } from './posterior/look-ahead.ts';
import { faultOnset, suddenStartMs } from './posterior/onset.ts';
import { drawParticles, type Particle } from './posterior/particles.ts';
import { likeliest } from './posterior/sensitivity.ts';
import { type WeighedCauses, weighCauses } from './posterior/weigh-causes.ts';
import { whereItShowed } from './posterior/where-it-showed.ts';
import { onsetBesideWork } from './sentences/onset-beside-work.ts';
import { rankCauses } from './sentences/rank-causes.ts';
import { type CausesWeighed, causesWeighed } from './unexplained/fault-for-sure.ts';
import { keepingWhatWasLost, onsetSince } from './with-another-fault.ts';

/** What was seen of a bike, how likely that makes each cause, how it fared with what was done to it, and what became of the likeliest cause. */
export interface Findings extends LikelyCauses, HowItFared, WhatBecame {}

/** What was seen, and how likely that makes each cause. */
interface LikelyCauses extends CausesWeighed {
  readonly evidence: RidingEvidence;
  readonly weighed: WeighedCauses;
  readonly particles: readonly Particle[];
  readonly lookAhead: LookAhead;
  readonly seen: Observed;
  readonly top: Cause;
  /** How the likeliest began, whatever an adjustment says of it. */
  readonly began: Onset;
}

/** How the bike fared before and after what was done to it, and how the likeliest began beside that. */
interface HowItFared {
  /** Adjustments that count, in order of time, without what was turned and taken back. */
  readonly standing: readonly Adjustment[];
  readonly compared: readonly AdjustmentComparison[];
  /** Without what was turned and taken back. */
  readonly comparisons: readonly AdjustmentComparison[];
  readonly foundRight: readonly Look[];
  readonly seenTo: readonly Look[];
  readonly overtaken: readonly OvertakenLook[];
  readonly lookedOver: Diagnosis['now']['lookedOver'];
  readonly onset: Onset;
  readonly ranked: Diagnosis['causes'];
  /** The same with the sentences of other counts: those of a part of the rides. */
  readonly rankedBy: (seen: Observed) => Diagnosis['causes'];
}

/** What became of the likeliest cause. */
interface WhatBecame {
  readonly clicks: TurnEstimate;
  /** The same for one cause's bikes alone. */
  readonly clicksFor: (cause: Cause) => TurnEstimate;
  readonly now: BikeNow;
  readonly wellSince: Diagnosis['shiftsWellSince'];
}

/**
 * Works out from a bike's rides and adjustments all that its diagnosis is made of.
 *
 * @param before what all rides show, where `input` holds those since the last adjustment alone
 */
export function findingsOf(input: DiagnosisInput, before: SuggestionFacts | null): Findings {
  const likely = weigh(input);
  const fared = compare(input, likely, before);
  const found = { ...likely, ...fared, ...becameOf(input, likely, fared) };
  return before ? { ...found, now: keepingWhatWasLost(found.now, before), comparisons: before.comparisons } : found;
}

function weigh(input: DiagnosisInput): LikelyCauses {
  const { bike } = input;
  const evidence = buildEvidence(input);
  const weighed = weighCauses(evidence, {
    cassetteLength: bike.cassette.length,
    cogPitchMm: cogPitchMm(bike),
    electronic: bike.actuation === 'electronic',
  });
  const seen = observe(evidence.rides, bike);
  const turns = evidence.groups.flatMap(({ adjustments }) => adjustments);
  const byTurning = {
    spoiled: spoiledShares(weighed, faultsTurnedTo(evidence.ridesInOrder, turns, bike)),
    turnedWhileWell: turnedWhileWell(evidence.ridesInOrder, turns, bike),
  };
  const { probabilities, failsPlainly, spoiled } = causesWeighed(weighed, seen, byTurning);
  const particles = drawParticles(weighed, probabilities);
  const lookAhead = new LookAhead(particles, weighed.model);
  const top = likeliest(probabilities);
  const began = faultOnset(particles, top, evidence, whereItShowed(particles, weighed.model, top));
  return { evidence, weighed, seen, probabilities, failsPlainly, spoiled, particles, lookAhead, top, began };
}

/** @param before what all rides show, where `input` holds those since the last adjustment alone */
function compare(
  { rides, bike, ...input }: DiagnosisInput,
  likely: LikelyCauses,
  before: SuggestionFacts | null,
): HowItFared {
  const { evidence, probabilities, failsPlainly, seen, top, began } = likely;
  const adjustments = adjustmentsThatCount(input.adjustments, bike.actuation);
  const standing = withoutCancelled(adjustments, rides);
  const beganMs = suddenStartMs(began);
  // over all rides, also those too old to be weighed: the report has one answer to whether an adjustment helped
  const compared = compareAdjustments(rides, adjustments, bike.cassette.length, beganMs);
  const comparisons = compared.filter((one) => !one.cancelledOut);
  const setAgainst = { rides, adjustments, beganMs };
  const foundRight = looksThatStand(evidence.looks, setAgainst);
  const lookedAt = before?.seenTo ?? seenTo(evidence.looks, setAgainst);
  const looks = {
    foundRight,
    seenTo: lookedAt,
    overtaken: before?.overtaken ?? overtakenLooks(evidence.looks, setAgainst),
    lookedOver: lookedOver([...lookedAt, ...limitsTurnedIn(setAgainst)], rides),
  };
  const onset = before ? onsetSince(began) : onsetBesideWork(began, top, comparisons);
  const loadKnown = Number.isFinite(evidence.edges.highNm);
  const rankedBy = (counted: Observed): Diagnosis['causes'] =>
    rankCauses(probabilities, { seen: counted, failsPlainly, loadKnown, comparisons });
  return { ...looks, standing, compared, comparisons, onset, ranked: rankedBy(seen), rankedBy };
}

function becameOf(
  { rides, bike }: DiagnosisInput,
  { evidence, probabilities, particles, seen, top: cause }: LikelyCauses,
  { standing, comparisons, ranked }: HowItFared,
): WhatBecame {
  const adjusted = evidence.groups.flatMap(({ adjustments }) => adjustments.map(({ parameter }) => parameter));
  const asked = { electronic: bike.actuation === 'electronic', adjusted };
  const clicksFor = (one: Cause): TurnEstimate => turnsNeeded(particles, one, asked);
  const clicks = clicksFor(cause);
  const anyFault = 1 - probabilities[causes.indexOf('no-fault')];
  const wellSince = shiftsWellSince(evidence.rides, standing, bike, { cause, anyFault });
  const now = bikeNow({
    ...{ bike, rides, adjustments: standing, evidence, particles, cause, clicks, wellSince, comparisons },
    probability: ranked[0].probability,
    judgedShifts: seen.all.shifts,
  });
  return {
    clicks,
    clicksFor,
    now,
    wellSince: wellSince && answersFirst(now, wellSince, comparisons) ? null : wellSince,
  };
}

/**
 * Whether what became of the last adjustment, of a limit past which the chain was lost, or a chain lost since, is to be told before that the newest rides
 * shift well. What was done after them leaves what they showed, unless it turns towards the fault again.
 */
function answersFirst(
  { cause, setting, since, trial }: BikeNow,
  { at }: ShiftsWellSince,
  comparisons: readonly AdjustmentComparison[],
): boolean {
  const after = notRiddenOn(comparisons, at);
  const back = isTurnable(cause) && turnedTowards(cause, after) !== null;
  const ridden = after.length === 0;
  return (
    ['cured', 'overdone'].includes(setting) ||
    (setting === 'untested' && (ridden || back)) ||
    (setting !== 'same' && trial !== null && trial.before.lost > 0) ||
    since.lost('past-largest') + since.lost('past-smallest') > 0
  );
}
