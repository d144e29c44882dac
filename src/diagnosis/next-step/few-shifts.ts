import { figure } from '../../numeric/figure.ts';
import { undatedCure } from '../evidence/build-evidence.ts';
import { FEWEST_SHIFTS } from '../fewest-shifts.ts';
import { nothingToTurn, type Step } from './step.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';
import { turnNothing } from './turn-nothing.ts';

/** The step where too few shifts could be weighed to name a part; where that is because no ride counts, why. */
export function fewShifts(facts: SuggestionFacts): Step {
  const { seen, undatedShifts, ridesLeftOut } = facts;
  if (ridesLeftOut > 0) return anotherBike(facts);
  const undated = undatedShifts > 0 ? `; ${figure(undatedShifts)} more are of a ride without a date` : '';
  return nothingToTurn(
    `${turnNothing(facts)} yet: too few judged shifts (${seen.all.shifts}) could be weighed to name a part${undated}.`,
    undated
      ? `A ride without a date cannot be set before or after an adjustment: ${undatedCure}.`
      : 'Ride on and record cadence, speed and gear changes.',
    `Look again when there are at least ${FEWEST_SHIFTS} judged shifts, better a hundred.`,
  );
}

/** More riding would not help: the rides are there, but do not fit the bike. */
function anotherBike(facts: SuggestionFacts): Step {
  const { ridesLeftOut } = facts;
  const [rides, look, each] =
    ridesLeftOut === 1
      ? ['the only ride is left out', 'it looks', 'it']
      : [`all ${figure(ridesLeftOut)} rides are left out`, 'they look', 'each of them'];
  return nothingToTurn(
    `${turnNothing(facts)} by this report: ${rides}, since by the gear records ${look} like another bike's.`,
    `Give ${each} to the bike that it was ridden on, with that bike's own rings and cogs; if it was this one, correct how many rings and cogs it has, and their teeth.`,
    'Look again once that is done: the verdict is worked out anew.',
  );
}
