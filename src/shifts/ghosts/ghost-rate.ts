import { logistic } from '../../numeric/logistic.ts';
import type { GhostShiftEvent } from '../ride-events.ts';

/** What may be an unasked shift: the log of its odds on a bike of which nothing else is known, and the least at which it is one. */
export interface GhostCandidate {
  readonly ghost: Omit<GhostShiftEvent, 'confidence'>;
  readonly logOdds: number;
  readonly leastLogOdds: number;
}

/** Candidates further below what is asked of them than this are not worth passing on: no ride's rate lifts them so far. */
export const LIFT_AT_MOST = 4;
/** Two findings this near are one event. */
const SAME_WITHIN_S = 3;
/**
 * Shape of the gamma distribution of the rate of unasked shifts over bikes (assumption of ours): most have few, some many, so one sure
 * one makes the next twice as likely.
 */
const RATE_SHAPE = 1;

/**
 * Whether one sure move makes another likelier. A chain that comes at last onto a cog it had missed tells of more of those, but not that the
 * bike's chain leaves its cog too: the diagnosis counts such moves, and the missed shift counts there already.
 */
const showsRateOf = (sure: GhostCandidate, other: GhostCandidate): boolean =>
  !sure.ghost.towardsCommand || other.ghost.towardsCommand === true;

/**
 * The unasked shifts of a ride among the candidates, in order of time: each is weighed at the rate that the ride's other sure ones
 * show (the posterior mean of a gamma-distributed Poisson rate: Gelman et al. 2013).
 */
export function likelyGhosts(candidates: readonly GhostCandidate[]): GhostShiftEvent[] {
  const apart: GhostCandidate[] = [];
  for (const one of [...candidates].sort((a, b) => b.logOdds - b.leastLogOdds - (a.logOdds - a.leastLogOdds)))
    if (apart.every(({ ghost }) => Math.abs(ghost.timeS - one.ghost.timeS) >= SAME_WITHIN_S)) apart.push(one);
  const sure = ({ logOdds, leastLogOdds }: GhostCandidate): number => (logOdds >= leastLogOdds ? logistic(logOdds) : 0);
  const sureOthers = (one: GhostCandidate): number =>
    apart.reduce((sum, other) => sum + (other !== one && showsRateOf(other, one) ? sure(other) : 0), 0);
  return apart
    .map((one) => ({ ...one, lifted: one.logOdds + Math.log1p(sureOthers(one) / RATE_SHAPE) }))
    .filter(({ lifted, leastLogOdds }) => lifted >= leastLogOdds)
    .map(({ ghost, lifted }) => ({ ...ghost, confidence: logistic(lifted) }))
    .sort((a, b) => a.timeS - b.timeS);
}
