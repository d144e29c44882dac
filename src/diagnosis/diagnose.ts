import { sum } from 'd3-array';
import { utcDay } from '../numeric/moment-words.ts';
import { isAnotherFault, ridesToLookAtAlone } from './another-since.ts';
import type { Cause } from './causes.ts';
import { planNextRide } from './check-ride/plan-next-ride.ts';
import type { Diagnosis, DiagnosisInput } from './diagnosis.ts';
import { FEWEST_SHIFTS } from './fewest-shifts.ts';
import { type Findings, findingsOf } from './findings.ts';
import { historyUntil } from './history.ts';
import { historyInTwo, isLaterCured, withLaterCured } from './later-cured.ts';
import { lookLeadsOn } from './next-step/after-look.ts';
import { suggest } from './next-step/suggest.ts';
import type { SuggestionFacts } from './next-step/suggestion-facts.ts';
import { helpedAgainst, wrongWays } from './next-step/wrong-ways.ts';
import { notLookedOver } from './now/chain-looked-over.ts';
import { curingEntry } from './now/cured-by.ts';
import { limitOrHanger as mayBeHanger } from './now/limit-or-hanger.ts';
import { nowVerdict } from './now/now-verdict.ts';
import { nothingWentWrong, type Observed, observe, sawNothing } from './observed.ts';
import { lateralErrors, lateralOffset } from './posterior/estimates.ts';
import { weighRider } from './posterior/rider-load.ts';
import { foundRightSentences } from './sentences/found-right-sentences.ts';
import { onsetSentence } from './sentences/story-sentences.ts';
import { undecidedBetween } from './sentences/undecided-between.ts';
import { causesInQuestion, findUnexplained } from './unexplained/find-unexplained.ts';
import { unexplainedTrouble } from './unexplained/unexplained-trouble.ts';
import { wentTwoWays } from './went-two-ways.ts';
import { standsAlone } from './what-leads.ts';
import { withAnotherFault } from './with-another-fault.ts';

/**
 * Weighs every cause against the rides and adjustments of one bike and says what to do next. The same input gives the
 * same verdict; the work hardly grows with the number of shifts. Nothing to go by is a documented value: the priors, a
 * wide offset, and a suggestion that names no part.
 */
export function diagnose(input: DiagnosisInput): Diagnosis {
  const whole = advise(input);
  const diagnosis = diagnosisOf(whole, input.bike);
  const { facts } = whole;
  const since = anotherSince(input, facts);
  if (since) {
    const at = facts.now.since.last?.at;
    const apart = at !== undefined && wentTwoWays(facts, at);
    const first = apart ? firstAlone(diagnosis, historyUntil(input, Date.parse(at)), since, at) : diagnosis;
    return withAnotherFault(first, diagnosisOf(since, input.bike));
  }
  const parts = historyInTwo(input, whole.findings, facts);
  const later = parts && advise(parts.later, facts);
  if (!later || !isLaterCured(facts, later.facts, parts)) return diagnosis;
  const first = parts.earlier ? firstAlone(diagnosis, parts.earlier, later, parts.at) : diagnosis;
  return withLaterCured(first, diagnosisOf(asCured(later), input.bike), parts.at);
}

/** What the rides since show, or those from a period on in which the bike was in order, where they name another fault by themselves; else null. */
function anotherSince(input: DiagnosisInput, facts: SuggestionFacts): Advised | null {
  for (const alone of ridesToLookAtAlone(input, facts)) {
    const since = advise(alone, facts);
    if (isAnotherFault(facts, since)) return since;
  }
  return null;
}

/** The same of a fault that shows no longer, whatever the imagined bikes make of the amount that was turned. */
function asCured(found: Advised): Advised {
  const { tooFar: _, ...now } = found.facts.now;
  const facts: SuggestionFacts = { ...found.facts, wellSince: null, now: { ...now, tooFar: null, setting: 'cured' } };
  return { ...found, facts, suggestion: suggest(facts) };
}

/** The verdict of all rides, where those before some work and those since show two faults: what was wrong at first is told by the rides before it. */
function firstAlone(whole: Diagnosis, earlier: DiagnosisInput, since: Advised, firstUntil: string): Diagnosis {
  const first = diagnosisOf(advise(earlier), earlier.bike);
  const [{ cause }] = first.causes;
  if (cause === 'no-fault') return whole;
  const between: readonly Cause[] = first.undecided?.between ?? [cause];
  return {
    ...whole,
    causes: first.causes,
    ...{ weighed: first.weighed, onset: first.onset, undecided: first.undecided, failsOnto: first.failsOnto },
    firstUntil,
    stillThere: sum(since.facts.ranked, (one) => (between.includes(one.cause) ? one.probability : 0)),
  };
}

/** What was found of a bike, all that the next step hangs on, and the step. */
interface Advised {
  readonly findings: Findings;
  readonly facts: SuggestionFacts;
  readonly separates: Diagnosis['separates'];
  readonly suggestion: Diagnosis['suggestion'];
  readonly limitOrHanger: boolean;
}

/** @param before what all rides show, where `input` holds those since the last adjustment alone */
function advise(input: DiagnosisInput, before: SuggestionFacts | null = null): Advised {
  const { bike } = input;
  const electronic = bike.actuation === 'electronic';
  const findings = findingsOf(input, before);
  const { evidence, particles, top, foundRight } = findings;
  const limitOrHanger = mayBeHanger({ ...input, cause: top, seenTo: findings.seenTo });
  const undecided = whatIsOpen(findings, electronic, limitOrHanger);
  const unexplained = leftUnexplained(findings, undecided ? undecided.between : [top], electronic);
  const rider = weighRider(particles, evidence);
  const { separates, checkRide } = planNextRide(input, { ...findings, undecided, unexplained, rider });
  const facts: SuggestionFacts = {
    ranked: findings.ranked,
    seen: findings.seen,
    // of every ride, also those that could not be weighed: damage is no matter of likelihood
    drops: before?.drops ?? observe(notLookedOver(input.rides, evidence.looks), bike).drops,
    undatedShifts: evidence.undatedShifts,
    ridesLeftOut: input.rides.length === 0 ? (input.ridesLeftOut ?? 0) : 0,
    undecided,
    unexplained,
    failsPlainly: findings.failsPlainly,
    onset: findings.onset,
    rider,
    clicks: findings.clicks,
    clicksFor: findings.clicksFor,
    now: findings.now,
    comparisons: findings.comparisons,
    foundRight,
    checkRide,
    electronic,
    seenTo: findings.seenTo,
    overtaken: findings.overtaken,
    wellSince: findings.wellSince,
  };
  return { findings, facts, separates, suggestion: suggest(facts), limitOrHanger };
}

function diagnosisOf(
  { findings, facts, separates, suggestion, limitOrHanger }: Advised,
  bike: DiagnosisInput['bike'],
): Diagnosis {
  const { evidence, particles, seen, now, foundRight } = findings;
  return {
    causes: withLooks(withOnset(asItWas(findings, bike), facts, evidence.rides.length), foundRight),
    weighed: weighedRides(evidence, seen),
    lateralOffsetMm: lateralOffset(particles),
    lateralErrorMm: lateralErrors(particles, bike),
    clicks: facts.clicks,
    onset: facts.onset,
    riderPart: riderNow(facts),
    separates,
    undecided: facts.undecided,
    checkRide: facts.checkRide,
    unexplained: facts.unexplained,
    failsOnto: failsOnto(findings),
    now: {
      ...nowVerdict(now),
      lookedOver: findings.lookedOver,
      foundRight: lookLeadsOn(findings.top, facts),
    },
    stillThere: now.stillThere,
    limitOrHanger,
    anotherSince: null,
    laterCured: null,
    firstUntil: null,
    cured: now.setting === 'cured',
    shiftsWellSince: findings.wellSince,
    comparisons: findings.compared,
    notes: evidence.notes,
    suggestion,
    wrongWays: suggestion.namesCause ? wrongWays(facts) : [],
    helpedAgainst: suggestion.namesCause ? helpedAgainst(facts) : [],
  };
}

/** The causes with their evidence; that of a fault that was cured is counted in the rides before its cure, since those after it are no evidence of it. */
function asItWas(
  { ranked, rankedBy, now, evidence, comparisons }: Findings,
  bike: DiagnosisInput['bike'],
): Findings['ranked'] {
  // what was done after the cure put nothing right
  const cure = curingEntry(comparisons, [ranked[0].cause]);
  if (now.setting !== 'cured' || !cure) return ranked;
  const before = evidence.rides.filter(({ startMs, durationS }) => startMs + durationS * 1000 <= Date.parse(cure.at));
  if (before.length === 0 || before.length === evidence.rides.length) return ranked;
  const [first, ...others] = rankedBy(observe(before, bike));
  const counted = `Counted in the rides before ${utcDay(cure.at)}, when it was put right.`;
  return [{ ...first, evidence: [...first.evidence, counted] }, ...others];
}

/** The causes, the likeliest with how it began; without "if" only where it is named alone. */
function withOnset(
  [first, ...others]: Findings['ranked'],
  { onset, undecided, comparisons }: SuggestionFacts,
  rides: number,
): Diagnosis['causes'] {
  const began = onsetSentence(onset, rides, standsAlone([first], undecided), comparisons);
  return [{ ...first, evidence: [...first.evidence, ...began] }, ...others];
}

/** What load did before a cure is no advice any more: the sentence counts shifts of a bike that is no longer so. */
const riderNow = ({ rider, now, wellSince }: SuggestionFacts): Diagnosis['riderPart'] =>
  now.setting === 'cured' || wellSince?.putRight ? { ...rider, sentence: '' } : rider;

const failsOnto = ({ failsPlainly, seen }: Findings): Diagnosis['failsOnto'] =>
  failsPlainly && failsPlainly.cog !== null ? seen.cassette[failsPlainly.cog] : null;

/** The causes with what was looked at for each and found right beside their evidence. */
const withLooks = (ranked: Diagnosis['causes'], foundRight: Findings['foundRight']): Diagnosis['causes'] =>
  ranked.map((one) => ({ ...one, evidence: [...one.evidence, ...foundRightSentences(one.cause, foundRight)] }));

/** Between which causes it is open; null too where nothing at all went wrong, for a bike in order is not open between that and a fault. */
function whatIsOpen(
  { weighed, probabilities, failsPlainly, spoiled, ranked, seen, top }: Findings,
  electronic: boolean,
  limitOrHanger: boolean,
): Diagnosis['undecided'] {
  const sound = top === 'no-fault' && nothingWentWrong(seen);
  // where nothing was seen the verdict is what was taken for granted: nothing hangs on more
  if (sound || sawNothing(seen)) return null;
  return undecidedBetween(weighed, probabilities, ranked, { seen, electronic, failsPlainly, limitOrHanger, spoiled });
}

/** What stands beside the verdict; null too where too few shifts were judged to name anything. */
function leftUnexplained(
  { weighed, ranked, seen }: Findings,
  named: readonly Cause[],
  electronic: boolean,
): Diagnosis['unexplained'] {
  if (seen.all.shifts < FEWEST_SHIFTS) return null;
  const found = findUnexplained(weighed, causesInQuestion(ranked, named));
  return found && unexplainedTrouble(found, seen, electronic);
}

const weighedRides = ({ rides }: Findings['evidence'], seen: Observed): Diagnosis['weighed'] => ({
  rides: rides.length,
  judgedShifts: seen.all.shifts,
  weakShifts: seen.weakShifts,
  events: seen.events,
  pedallingHours: seen.pedallingHours,
});
