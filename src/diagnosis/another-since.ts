import { turnsAnything } from '../adjustments/doubtful-adjustment.ts';
import { hasClock } from '../ride-log/has-clock.ts';
import { cassetteEnds } from './cassette-ends.ts';
import type { Diagnosis, DiagnosisInput, DiagnosisRide } from './diagnosis.ts';
import { rideFrom } from './evidence/ride-from.ts';
import type { SuggestionFacts } from './next-step/suggestion-facts.ts';
import type { BikeNow } from './now/bike-now.ts';
import { anyShiftsFail, ghostsOften } from './now/fails-like.ts';
import { EXPLAINED_FROM, LIKELY_ENOUGH } from './verdict-limits.ts';

/** Whether the rides since the last adjustment show trouble of their own, whichever fault makes it. */
const showsTrouble = ({ since: { seen, lost }, skipping }: Pick<BikeNow, 'since' | 'skipping'>): boolean =>
  anyShiftsFail(seen) || ghostsOften(seen) || skipping !== null || cassetteEnds.some((end) => lost(end) > 0);

/**
 * The rides since the last adjustment, to be weighed by themselves: where the fault that all rides name is likelier gone than not, and things go wrong all the
 * same. All rides are weighed for one fault; one that came after it is hidden behind it. Null where there is nothing of the kind.
 */
export function ridesToLookAtAlone(
  input: DiagnosisInput,
  { ranked, now, wellSince }: Pick<SuggestionFacts, 'ranked' | 'now' | 'wellSince'>,
): DiagnosisInput | null {
  const { setting, since, stillThere } = now;
  // a cured fault hides one that shifts do not show: skips
  const mayHide = setting === 'same' || setting === 'unsettled' || setting === 'cured';
  if (!since.last || !mayHide || wellSince || ranked[0].cause === 'no-fault') return null;
  if (stillThere >= LIKELY_ENOUGH || !showsTrouble(now)) return null;
  const fromMs = Date.parse(since.last.at);
  const rides = input.rides
    .filter(({ startMs }) => hasClock(startMs))
    .map((ride) => rideFrom(ride, fromMs))
    .filter((ride): ride is DiagnosisRide => ride !== null);
  const looks = input.adjustments.filter((one) => !turnsAnything(one) && Date.parse(one.at) > fromMs);
  return { ...input, rides, adjustments: looks };
}

/** Whether the rides since name another fault by themselves, and hardly leave room for the one before. */
export function isAnotherFault(
  before: Pick<SuggestionFacts, 'ranked'>,
  {
    facts: { ranked, undecided },
    suggestion,
  }: Readonly<{ facts: SuggestionFacts; suggestion: Diagnosis['suggestion'] }>,
): boolean {
  const first = ranked.find(({ cause }) => cause === before.ranked[0].cause);
  const named = [ranked[0].cause, ...(undecided?.between ?? [])];
  return suggestion.namesCause && !named.includes('no-fault') && (first?.probability ?? 0) < EXPLAINED_FROM;
}
