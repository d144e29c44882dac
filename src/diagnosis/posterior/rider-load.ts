import { rollup } from 'd3-array';
import { adjustmentPeriods } from '../../adjustments/adjustment-periods.ts';
import { figure } from '../../numeric/figure.ts';
import { type Stratum, stratifiedFewer } from '../../numeric/stratified-fewer.ts';
import { wilsonInterval } from '../../numeric/wilson-interval.ts';
import type { ShiftEvent } from '../../shifts/ride-events.ts';
import type { RiderPart } from '../diagnosis.ts';
import type { RidingEvidence } from '../evidence/build-evidence.ts';
import { LOAD_BINS, loadBin } from '../evidence/evidence-table.ts';
import { PART_WENT_WELL_BELOW, WENT_WELL_BELOW } from '../went-well.ts';
import type { Particle } from './particles.ts';

/** From here on it is sure enough that more goes wrong under load than without. An assumption of ours. */
const PLAINLY_MORE = 0.99;
/** From here on the rider's pressing is likelier at fault than not. */
export const RIDER_LIKELY = 0.5;
/** Trouble this small at the highest torque is not worth a word. */
const WORTH_MENTIONING = 0.06;
/** Trouble that is gone with soft legs has a larger share than this under hard pedalling, for sure. An assumption of ours. */
const MUCH = 0.15;

interface LoadCount {
  shifts: number;
  trouble: number;
}

/**
 * The judged shifts under each load, in the order of `loadBin`. Periods between adjustments in which next to nothing went wrong are left out where
 * another period went worse: hard pedalling had nothing to spoil there, and counts of a bike that was cured since hide what load did before.
 */
function shiftsByLoad(evidence: RidingEvidence): ShiftEvent[][] {
  const periods = adjustmentPeriods(
    evidence.ridesInOrder,
    evidence.groups.flatMap(({ adjustments }) => adjustments),
  ).periods.map(({ shifts }) => shifts);
  const goesWell = (shifts: readonly ShiftEvent[]): boolean =>
    wilsonInterval(count(shifts).trouble, shifts.length).high < WENT_WELL_BELOW;
  const worse = periods.filter((shifts) => shifts.length > 0 && !goesWell(shifts));
  const all = evidence.rides.flatMap(({ events }) => events.shifts).filter(({ outcome }) => outcome !== 'unjudged');
  const counted = evidence.groups.length > 0 && worse.length > 0 ? worse.flat() : all;
  const loads: ShiftEvent[][] = Array.from({ length: LOAD_BINS }, () => []);
  for (const shift of counted) loads[loadBin(shift.torqueNm, evidence.edges)].push(shift);
  return loads;
}

const count = (shifts: readonly ShiftEvent[]): LoadCount => ({
  shifts: shifts.length,
  trouble: shifts.filter(({ outcome }) => outcome !== 'clean').length,
});

/**
 * Whether hard pedalling plainly makes more shifts go wrong than light pedalling does, each cog and direction compared with itself alone: a rider
 * presses hardest onto the largest cogs, so that a limit that stops short there would else look like his legs.
 */
function plainlyWorse(light: readonly ShiftEvent[], hard: readonly ShiftEvent[]): boolean {
  const tagged = [light, hard].flatMap((shifts) => shifts.map((shift) => ({ shift, under: shifts })));
  const strata = rollup(
    tagged,
    (alike): Stratum => {
      const under = (load: readonly ShiftEvent[]) => {
        const own = count(alike.filter((one) => one.under === load).map(({ shift }) => shift));
        return { bad: own.trouble, of: own.shifts };
      };
      return { before: under(hard), after: under(light) };
    },
    ({ shift: { toCog, direction } }) => `${toCog} ${direction}`,
  );
  return stratifiedFewer([...strata.values()]) > PLAINLY_MORE;
}

/** Whether trouble is gone with soft legs: hardly any under light pedalling, much under hard, both for sure, and not for the cogs shifted onto alone. */
export function goneWithSoftLegs(evidence: RidingEvidence): boolean {
  const [light, , hard] = shiftsByLoad(evidence);
  return Number.isFinite(evidence.edges.highNm) && vanishes(count(light), count(hard)) && plainlyWorse(light, hard);
}

const vanishes = (low: LoadCount, high: LoadCount): boolean =>
  wilsonInterval(low.trouble, low.shifts).high < PART_WENT_WELL_BELOW &&
  wilsonInterval(high.trouble, high.shifts).low > MUCH;

/** The rider's own part: does trouble gather at high torque on a bike that is otherwise well set? */
export function weighRider(particles: readonly Particle[], evidence: RidingEvidence): RiderPart {
  const loads = shiftsByLoad(evidence);
  const [light, , hard] = loads;
  if (!Number.isFinite(evidence.edges.highNm) || light.length === 0 || hard.length === 0)
    return {
      probability: 0,
      troubleRateLowTorque: null,
      troubleRateHighTorque: null,
      goneWithSoftLegs: false,
      // where no shift at all was judged, the verdict says so
      sentence: loads.some((shifts) => shifts.length > 0)
        ? 'Too few shifts with power were judged to tell what hard pedalling does.'
        : '',
    };
  const probability =
    particles.filter(({ cause, healthy }) => cause === 'no-fault' && healthy.rider > WORTH_MENTIONING).length /
    Math.max(1, particles.length);
  const [low, high] = [count(light), count(hard)];
  const worse = plainlyWorse(light, hard);
  const gone = worse && vanishes(low, high);
  const likely = probability > RIDER_LIKELY;
  return {
    probability,
    troubleRateLowTorque: low.trouble / low.shifts,
    troubleRateHighTorque: high.trouble / high.shifts,
    goneWithSoftLegs: gone,
    // counts that show no difference are no evidence
    sentence: worse || likely ? loadSentence(low, high, evidence, gone || likely) : '',
  };
}

/** Both counts and what they come to for the rider. Easing off helps whatever is wrong, so it is told wherever load plainly matters. */
function loadSentence(
  low: LoadCount,
  high: LoadCount,
  { edges: { middleNm, highNm }, groups }: Pick<RidingEvidence, 'edges' | 'groups'>,
  byLoadAlone: boolean,
): string {
  const before = groups.length > 0 ? 'before any more is turned' : 'before any part is touched';
  const told = `${figure(high.trouble)} of ${figure(high.shifts)} shifts under the hardest pedalling (over ${Math.round(highNm)} Nm) went wrong, ${figure(low.trouble)} of ${figure(low.shifts)} under the lightest (up to ${Math.round(middleNm)} Nm)`;
  return byLoadAlone
    ? `${told}: ease off for half a turn while shifting ${before}.`
    : `${told}: onto the same cogs too load made it worse, so ease off for half a turn while shifting, whatever the cause.`;
}
