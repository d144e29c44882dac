import { DECIDED_AT } from '../../adjustments/compare-rates.ts';
import { isLoose } from '../cassette-ends.ts';
import { type Cause, isIndexing } from '../causes.ts';
import { CURED_BELOW } from '../cured-below.ts';
import { goneUnlogged } from '../posterior/gone-unlogged.ts';
import { anyShiftsFail, failsLike, ghostsOften } from './fails-like.ts';
import { provedByTrial } from './fault-left.ts';
import { isTried, type LimitTrial } from './limit-trial.ts';
import { mayBeMended } from './may-be-mended.ts';
import type { NowFacts } from './now-facts.ts';
import { pointsTheSameWay } from './points-the-same-way.ts';
import type { SeenSince } from './seen-since.ts';
import type { SettingNow } from './setting-now.ts';
import { shiftsWell } from './shifts-well.ts';

/** What the rides since the last adjustment showed of a cause, and what they leave of it. */
interface SinceThen {
  readonly since: SeenSince;
  /** Whether anything was judged since. */
  readonly tested: boolean;
  /** Whether a chain was lost past an end of the cassette. */
  readonly lost: boolean;
  /** How likely it is still there, and how likely its setting stands out on the other side. */
  readonly left: number;
  readonly past: number;
  readonly trial: LimitTrial | null;
  /** Whether it was turned, all in all, the way that goes against it. */
  readonly turnedRight: boolean;
}

const LIKELIER_THAN_NOT = 0.5;

/** What became of the setting in question, where it was not turned too far. */
export function settingSince(facts: NowFacts, then: SinceThen): Exclude<SettingNow, 'overdone' | 'another'> {
  const { cause, clicks, particles } = facts;
  const { since, tested, lost, left, past, trial } = then;
  if (!since.last || cause === 'no-fault') return 'same';
  if (!tested) return failsLike(cause, since) ? 'same' : lost ? 'unsettled' : 'untested';
  if (trial && !failsLike(cause, since)) {
    if (!isTried(cause, trial)) return lost ? 'unsettled' : 'untested';
    if (isLoose(cause) && provedByTrial(trial, then.turnedRight) && trial.holds < DECIDED_AT) return 'unsettled';
  }
  if (isCured(cause, then)) return goneUnlogged(particles, cause) < LIKELIER_THAN_NOT ? 'cured' : 'unsettled';
  const there = left >= past && (left >= LIKELIER_THAN_NOT || failsLike(cause, since));
  return there && pointsTheSameWay(cause, clicks) && !mayBeMended(facts, since) ? 'same' : 'unsettled';
}

/** Most likely there no longer, nor turned past the mark, and the rides since do not fail. A chain lost past an end is a failure. */
function isCured(cause: Cause, { since, lost, left, past, trial, turnedRight }: SinceThen): boolean {
  const { seen } = since;
  if (lost || anyShiftsFail(seen) || ghostsOften(seen) || (cause === 'worn-drivetrain' && failsLike(cause, since)))
    return false;
  // as sure as the entry has to be before it is said to have helped
  if (isLoose(cause) && provedByTrial(trial, turnedRight)) return trial.holds >= DECIDED_AT;
  // shifts show how the indexing stands, but not whether a limit that was opened stops the chain
  return left + past < CURED_BELOW || (left < CURED_BELOW && isIndexing(cause) && shiftsWell(seen));
}
