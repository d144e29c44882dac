import type { ShiftsWellSince } from '../diagnosis.ts';
import type { BikeNow } from '../now/bike-now.ts';
import { nothingToTurn, type Step } from './step.ts';

/** The newest rides decide whether anything is turned: what was wrong before them is wrong no longer. */
export function putRight({ at, shifts, trouble, adjusted }: ShiftsWellSince, now: Pick<BikeNow, 'turnedRight'>): Step {
  return nothingToTurn(
    `Turn nothing: since the ride of ${at.slice(0, 10)} the bike shifts well (${trouble} of ${shifts} judged shifts went wrong), so something seems to have been put right.`,
    adjusted ? logged(now) : unlogged,
    'Keep recording; the verdict is worked out again with every ride and every entry.',
  );
}

const unlogged =
  'If something was adjusted, aligned or replaced before that ride, log what and when: the rides are then weighed with it.';

/** How far an adjuster reaches differs from bike to bike, so an entry of the right part and sign is not called wrong for its size. */
const logged = ({ turnedRight }: Pick<BikeNow, 'turnedRight'>): string =>
  turnedRight
    ? 'What is logged before that ride is of the right part and sign, and may have done it, though by its amount alone less was to be expected. If more was done, log that too.'
    : 'What is logged before that ride does not account for it: check its part, amount and sign, and log whatever else was done.';
