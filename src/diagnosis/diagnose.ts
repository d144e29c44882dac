import { compareAdjustments } from '../adjustments/compare-adjustments.ts';
import { cogPitchMm } from '../drivetrain/cog-pitch.ts';
import { buildEvidence } from './build-evidence.ts';
import { causePhrase } from './cause-words.ts';
import { type Cause, causes } from './causes.ts';
import { curedBelow } from './cured-below.ts';
import type { CauseVerdict, Diagnosis, DiagnosisInput, Undecided } from './diagnosis.ts';
import { lateralErrors, lateralOffset, stillThere, turnsNeeded } from './estimates.ts';
import { evidenceSentences } from './evidence-sentences.ts';
import { LookAhead } from './look-ahead.ts';
import { observe } from './observed.ts';
import { faultOnset, suddenStartMs } from './onset.ts';
import { drawParticles } from './particles.ts';
import { noCheckRide, planCheckRide } from './plan-check-ride.ts';
import { posterior } from './posterior.ts';
import { weighRider } from './rider-load.ts';
import { likeliest, varyAssumptions } from './sensitivity.ts';
import { separateCauses } from './separate-causes.ts';
import { adjustmentSentences, onsetSentence } from './story-sentences.ts';
import { suggest } from './suggest.ts';
import { type WeighedCauses, weighCauses } from './weigh-causes.ts';
import { unshownSentences } from './where-it-shows.ts';

/** Trouble above this rate on a cog and direction is where a cause shows. */
const showsAbove = 0.08;

/** Between which causes the verdict stands when an assumption is moved within its plausible range. */
function undecidedBetween(
  weighed: WeighedCauses,
  probabilities: readonly number[],
  ranked: readonly CauseVerdict[],
  electronic: boolean,
): Undecided | null {
  const top = ranked[0].cause;
  const turned = varyAssumptions(weighed, probabilities).filter((varied) => varied.top !== top);
  if (turned.length === 0) return null;
  const rivals = ranked.map(({ cause }) => cause).filter((cause) => turned.some((varied) => varied.top === cause));
  const becauseOf = [...new Set(turned.filter((varied) => varied.top === rivals[0]).map(({ meaning }) => meaning))];
  const between: [Cause, Cause] = [top, rivals[0]];
  const [a, b] = between.map((cause) => causePhrase(cause, electronic));
  return {
    between,
    becauseOf,
    sentence: `Undecided between ${a} and ${b}: the verdict hangs on ${becauseOf.join(', and on ')}.`,
  };
}

/**
 * Weighs every cause against the rides and adjustments of one bike and says what to do next. The same input gives the
 * same verdict; the work hardly grows with the number of shifts. Nothing to go by is a documented value: the priors, a
 * wide offset, and a suggestion that names no part.
 */
export function diagnose(input: DiagnosisInput): Diagnosis {
  const { bike } = input;
  const electronic = bike.actuation === 'electronic';
  const evidence = buildEvidence(input);
  const weighed = weighCauses(evidence, {
    cassetteLength: bike.cassette.length,
    cogPitchMm: cogPitchMm(bike),
    electronic,
  });
  const probabilities = posterior(weighed);
  const particles = drawParticles(weighed, probabilities);
  const lookAhead = new LookAhead(particles, weighed.model);
  const seen = observe(evidence.rides, bike);
  const top = likeliest(probabilities);
  const own = particles.map((_, i) => i).filter((i) => particles[i].cause === top);
  const onset = faultOnset(particles, top, evidence, (cog, direction) => {
    const { trouble } = lookAhead.expect({ cog, larger: direction === 'to-larger', firm: false });
    return own.reduce((sum, i) => sum + trouble[i], 0) / own.length > showsAbove;
  });
  const comparisons = compareAdjustments(evidence.rides, input.adjustments, bike.cassette.length, suddenStartMs(onset));
  const last = comparisons.at(-1);
  const untested = last !== undefined && last.after.shifts === 0 ? last : null;
  const ranked = causes
    .map((cause, c) => ({
      cause,
      probability: probabilities[c],
      evidence: [...evidenceSentences(cause, seen), ...adjustmentSentences(cause, comparisons)],
    }))
    .sort((a, b) => b.probability - a.probability);
  ranked[0].evidence.push(...unshownSentences(top, seen), ...onsetSentence(onset));
  // where nothing was seen the verdict is what was taken for granted: nothing to part, nothing that hangs on more
  const saysNothing = seen.all.shifts + seen.events === 0;
  // a bike on which nothing at all went wrong is not open between that and a fault
  const sound = top === 'no-fault' && seen.all.trouble + seen.events === 0;
  const undecided = saysNothing || sound ? null : undecidedBetween(weighed, probabilities, ranked, electronic);
  const facts = {
    ranked,
    seen,
    undecided,
    onset,
    rider: weighRider(particles, evidence),
    clicks: turnsNeeded(particles, top, electronic),
    // what nobody has ridden on since may have cured anything: that is no finding
    stillThere: evidence.groups.length > 0 && !untested ? stillThere(particles, top) : 1,
    untested,
    checkRide: input.cogsKnown === false ? noCheckRide : planCheckRide(lookAhead, bike.cassette, weighed.model.usage),
    electronic,
  };
  return {
    causes: ranked,
    lateralOffsetMm: lateralOffset(particles),
    lateralErrorMm: lateralErrors(particles, bike),
    clicks: facts.clicks,
    onset,
    riderPart: facts.rider,
    // a fault that was cured shows nothing any more by which it could be told apart
    separates:
      saysNothing || facts.stillThere < curedBelow
        ? null
        : separateCauses(weighed, [top, ranked[1].cause], bike.cassette, electronic),
    undecided,
    checkRide: facts.checkRide,
    stillThere: facts.stillThere,
    notes: evidence.notes,
    suggestion: suggest(facts),
  };
}
