import { figure } from '../../numeric/figure.ts';
import { stratifiedFewer } from '../../numeric/stratified-fewer.ts';
import { wilsonInterval } from '../../numeric/wilson-interval.ts';
import type { RiderPart } from '../diagnosis.ts';
import type { RidingEvidence } from '../evidence/build-evidence.ts';
import { loadBin } from '../evidence/evidence-table.ts';
import type { Particle } from './particles.ts';

/** From here on it is sure enough that more goes wrong under load than without. An assumption of ours. */
const PLAINLY_MORE = 0.99;
/** Trouble this small at the highest torque is not worth a word. */
const WORTH_MENTIONING = 0.06;
/** Trouble is gone with soft legs where its share there is lower than this, and under hard pedalling higher than that, both for sure. Assumptions of ours. */
const HARDLY_ANY = 0.08;
const MUCH = 0.15;

interface LoadCount {
  shifts: number;
  trouble: number;
}

function countByLoad(evidence: RidingEvidence): LoadCount[] {
  const counts = Array.from({ length: 4 }, () => ({ shifts: 0, trouble: 0 }));
  for (const ride of evidence.rides)
    for (const shift of ride.events.shifts) {
      if (shift.outcome === 'unjudged') continue;
      const count = counts[loadBin(shift.torqueNm, evidence.edges)];
      count.shifts++;
      if (shift.outcome !== 'clean') count.trouble++;
    }
  return counts;
}

/** Whether trouble is gone with soft legs: hardly any under light pedalling, much under hard, both for sure. */
export function goneWithSoftLegs(evidence: RidingEvidence): boolean {
  const [low, , high] = countByLoad(evidence);
  return Number.isFinite(evidence.edges.highNm) && vanishes(low, high);
}

const vanishes = (low: LoadCount, high: LoadCount): boolean =>
  wilsonInterval(low.trouble, low.shifts).high < HARDLY_ANY && wilsonInterval(high.trouble, high.shifts).low > MUCH;

/** What the two rates come to for the rider; null where they do not plainly differ. Easing off helps whatever is wrong, so it is told wherever load plainly matters. */
function whatFollows(probability: number, low: LoadCount, high: LoadCount): string | null {
  if (probability > 0.5 || vanishes(low, high))
    return 'ease off for half a turn while shifting before any part is touched';
  const cases = ({ trouble, shifts }: LoadCount) => ({ bad: trouble, of: shifts });
  return stratifiedFewer([{ before: cases(high), after: cases(low) }]) > PLAINLY_MORE
    ? 'load made it worse, so ease off for half a turn while shifting, whatever the cause'
    : null;
}

/** The rider's own part: does trouble gather at high torque on a bike that is otherwise well set? */
export function weighRider(particles: readonly Particle[], evidence: RidingEvidence): RiderPart {
  const counts = countByLoad(evidence);
  const [low, , high] = counts;
  const none = { troubleRateLowTorque: null, troubleRateHighTorque: null };
  if (!Number.isFinite(evidence.edges.highNm) || low.shifts === 0 || high.shifts === 0)
    return {
      probability: 0,
      ...none,
      goneWithSoftLegs: false,
      // where no shift at all was judged, the verdict says so
      sentence: counts.some(({ shifts }) => shifts > 0)
        ? 'Too few shifts with power were judged to tell what hard pedalling does.'
        : '',
    };
  const probability =
    particles.filter(({ cause, healthy }) => cause === 'no-fault' && healthy.rider > WORTH_MENTIONING).length /
    Math.max(1, particles.length);
  const follows = whatFollows(probability, low, high);
  const told = `${figure(high.trouble)} of ${figure(high.shifts)} shifts under the hardest pedalling (over ${Math.round(evidence.edges.highNm)} Nm) went wrong, ${figure(low.trouble)} of ${figure(low.shifts)} under the lightest (up to ${Math.round(evidence.edges.middleNm)} Nm)`;
  return {
    probability,
    troubleRateLowTorque: low.trouble / low.shifts,
    troubleRateHighTorque: high.trouble / high.shifts,
    goneWithSoftLegs: vanishes(low, high),
    // counts that show no difference are no evidence
    sentence: follows ? `${told}: ${follows}.` : '',
  };
}
