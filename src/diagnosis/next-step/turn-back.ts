import { parameterName } from '../../adjustments/parameter-words.ts';
import { counted } from '../../numeric/counted.ts';
import { utcDay } from '../../numeric/moment-words.ts';
import { endsLookedAt } from '../cassette-ends.ts';
import { isIndexing } from '../causes.ts';
import type { TurnedTooFar } from '../now/turned-too-far.ts';
import type { TurnableFault } from '../now/turned-towards.ts';
import { lookAgainst } from './after-look.ts';
import { lookThenOpen, opensAt } from './look-then-open.ts';
import { moveInboard, nextStep } from './next-steps.ts';
import type { Step } from './step.ts';
import { generalCautions } from './step-cautions.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';
import { turnsInAll } from './turns-in-all.ts';
import { verifyNow } from './verify-now.ts';

/** How a setting that was turned too far is turned back. `by`: how far it was turned. Common practice in the trade, no source. */
type Back = (by: string, electronic: boolean) => { readonly action: string; readonly start?: string };

const backFrom: Readonly<Record<TurnableFault, Back>> = {
  'cable-tension-low': () => ({
    action: 'Put back a part of the cable tension: turn the barrel adjuster anticlockwise, one click at a time.',
  }),
  'cable-tension-high': () => ({
    action: 'Take back a part of the cable tension: turn the barrel adjuster clockwise, one click at a time.',
  }),
  'low-limit-tight': (by) => ({
    action: `Turn the low limit screw back out (anticlockwise) by a part of the ${by} it was turned in, until the guide pulley can stand straight below the largest cog, and no further.`,
  }),
  'low-limit-loose': (by, electronic) => ({
    action: `Turn the low limit screw back in (clockwise) by a part of the ${by} it was opened, until the guide pulley stops straight below the largest cog. Look whether the hanger is bent inboard too.`,
    start: `About half of what it was opened before the next ride, then ${moveInboard(electronic)} and look; keep off the largest cog until it stops there.`,
  }),
  'high-limit-tight': (by) => ({
    action: `Turn the high limit screw back out (anticlockwise) by a part of the ${by} it was turned in, until the guide pulley can stand a hair outside the smallest cog.`,
  }),
  'high-limit-loose': (by) => ({
    action: `Turn the high limit screw back in (clockwise) by a part of the ${by} it was opened, until the guide pulley stops a hair outside the smallest cog.`,
    start:
      'About half of what it was opened before the next ride, then look where the derailleur stops; keep off the smallest cog until it stops a hair outside it.',
  }),
  'pulley-gap-small': (by) => ({
    action: `Turn the B-screw back clockwise by a part of the ${by} it was turned, which widens the gap between guide pulley and cogs. Measure it with the chain on the second largest cog.`,
  }),
  'pulley-gap-large': (by) => ({
    action: `Turn the B-screw back anticlockwise by a part of the ${by} it was turned, which narrows the gap between guide pulley and cogs. Measure it with the chain on the second largest cog.`,
  }),
};

const electronicActions: Partial<Record<TurnableFault, string>> = {
  'cable-tension-low': 'Move the index offset back inboard, one step at a time.',
  'cable-tension-high': 'Move the index offset back outboard, one step at a time.',
};

/** What was found right fails all the same: that is not passed over, and settled by the hand before anything is turned. */
function lookOnceMore(fault: TurnableFault, facts: SuggestionFacts): string {
  const look = lookAgainst(fault, facts);
  return look
    ? ` The ${parameterName(look.parameter)} was found right on ${utcDay(look.at)}, but the shifts tell otherwise: look once more, and turn only what the stand shows.`
    : '';
}

/** Where an adjustment went too far: the setting is turned back by a part, never on. */
export function turnBack(tooFar: TurnedTooFar & { readonly byLast: boolean }, facts: SuggestionFacts): Step {
  const { electronic, clicks } = facts;
  const { fault, amount, byLast } = tooFar;
  const usual = nextStep(fault, electronic);
  const back = backFrom[fault](counted(amount, 'turn'), electronic);
  const tooMuch = byLast
    ? 'The last adjustment went too far.'
    : 'An earlier adjustment went too far, and it is still too much.';
  const why = `${tooMuch}${lookOnceMore(fault, facts)}`;
  const lostAt = opensAt(fault, facts);
  return {
    namesCause: true,
    parameter: usual.parameter,
    looksAt: endsLookedAt(fault),
    steps: [`${why} ${(electronic ? electronicActions[fault] : undefined) ?? back.action}`],
    start: (back.start ?? usual.start) + (isIndexing(fault) ? turnsInAll(clicks, fault === 'cable-tension-low') : ''),
    keepsOff: endsLookedAt(fault),
    verify: verifyNow(fault, facts),
    ...(lostAt && lookThenOpen(lostAt, { why, action: back.action }, facts)),
    cautions: [...usual.cautions, ...generalCautions],
  };
}
