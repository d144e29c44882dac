import type { Adjustment } from '../../adjustments/adjustment.ts';
import type { Look } from '../../adjustments/looks.ts';
import { sameSitting } from '../../adjustments/same-sitting.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import { evidenceWeights, missedByLook } from '../assumptions.ts';
import type { Cause } from '../causes.ts';
import type { RidingEvidence } from '../evidence/build-evidence.ts';
import { looksFor, overtakes } from '../looked-for.ts';
import { isGone, type OnsetOption } from './onset-options.ts';

type Ridden = Pick<RidingEvidence, 'segments' | 'groups' | 'looks'>;

/**
 * How much the looks that found a part right speak against a cause, for each way in which it can have begun: the log of the share of looks
 * that miss it, 0 where none speaks. A look speaks only of a fault that some ride before it showed in full, as it was: nothing was done between that
 * sets the part anew. A hanger aligned in the same sitting does not: it moves the derailleur and no screw, and a screw found right beside it was not out. Another look at the same part, by the same eyes, adds nothing. The share is meant as it stands, so it is
 * kept out of the power by which what the rides show is held down (`evidenceWeights.verdict`).
 */
export const foundRightLogs = (cause: Cause, options: readonly OnsetOption[], ridden: Ridden): Float64Array =>
  Float64Array.from(options, (option) => {
    const spoken = ridden.looks.filter((look) => looksFor(look.parameter, cause) && wasThere(option, look, ridden));
    const parts = new Set(spoken.map(({ parameter }) => parameter));
    return [...parts].reduce((sum, part) => sum + Math.log(missedByLook[part]), 0) / evidenceWeights.verdict;
  });

/** Whether a fault that began so was there, untouched, when a part was looked at. */
function wasThere(option: OnsetOption, look: Look, { segments, groups }: Ridden): boolean {
  const { at, parameter } = look;
  const lookMs = Date.parse(at);
  const first = segments[option.fullFrom];
  if (!first || !hasClock(first.startMs) || first.startMs >= lookMs) return false;
  // one that went away unlogged may have been gone by then, unless a later ride still showed it
  if (isGone(option) && segments[option.goneFrom - 1].startMs <= lookMs) return false;
  const since = groups.slice(first.period).flatMap(({ adjustments }) => adjustments);
  const ridingMs = segments.map(({ startMs }) => startMs);
  const besideHanger = (one: Adjustment): boolean =>
    one.parameter === 'hanger' && parameter !== 'hanger' && sameSitting(one, look, ridingMs);
  return !since.some(
    (one) => Date.parse(one.at) <= lookMs && overtakes(one.parameter, parameter) && !besideHanger(one),
  );
}
