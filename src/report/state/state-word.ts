import { NEXT_TO_NOTHING, WENT_WELL_BELOW } from '../../diagnosis/went-well.ts';
import type { StateSigns } from './state-signs.ts';

/** The states, the one that needs a hand most first. */
export const stateOrder = ['service', 'watch', 'too little data', 'fine'] as const;
/** One of `stateOrder`. */
export type StateWord = (typeof stateOrder)[number];

/*
 * Limits of the rule below. Assumptions of ours, chosen so that the sample bikes and healthy rides fall where a
 * mechanic would put them; none is from a source. How many judged shifts are enough, the diagnosis says.
 */

/** Probability of a fault that sends a bike to the workshop. */
const SERVICE_FROM = 0.8;
/** Probability of a fault that is worth keeping an eye on. */
export const WATCH_FROM = 0.5;
/** Trouble that no healthy bike shows: the low end of its interval lies above this. */
export const TROUBLE_TO_WATCH = 0.03;
/** The same, so much that the bike needs service whatever the cause. */
const TROUBLE_TO_SERVICE = 0.15;

/**
 * The rule, in order:
 *
 * 1. `service`: with enough judged shifts, a fault as likely as `SERVICE_FROM` whose cause is named, or the low end of the trouble
 *    rate above `TROUBLE_TO_SERVICE`, on the whole or where no cause explains it; or, with however few, a chain that left the cassette towards spokes or frame, until limit and hanger were both looked at or set since, or enough shifts
 *    onto that cog after an adjustment show that it stays on; or an adjustment that went too far; or a chain that stands a whole cog from the one asked for.
 * 2. `watch`: such a chain after that look, as long as no shifts show that it stays on.
 * 3. `too little data`: no verdict is drawn from the shifts (`heldBack`), fewer than `FEWEST_SHIFTS` judged shifts, or fewer that could be weighed.
 *    `watch` too, with enough judged shifts, where a chain may have come off at all: that is looked over before the next ride.
 * 4. `fine`, or `too little data` until that is sure: no cause named, none likelier than that nothing is wrong, and next to nothing gone wrong. The
 *    faults together may be likelier than none by what is taken for granted alone.
 * 5. `watch`: a fault at least as likely as `WATCH_FROM`, or the low end of the trouble rate above `TROUBLE_TO_WATCH`.
 * 6. `fine`: otherwise.
 *
 * A bike whose newest rides shift well though nothing logged accounts for it is watched, not sent to the workshop, and not called cured: what
 * was done, if anything, is to be logged. One whose trouble is gone with soft legs, and of which no part is named, is watched too: its rider is to ease off first. A fault that the last adjustment cured counts only as far as it may still be there or past the mark. Where one went too far, what it
 * made of the fault is the cause that counts. What the trouble rate counts, `troubleNow` says.
 */
export function stateWord(signs: StateSigns): StateWord {
  const { fault, trouble, enough, toLookAt, namesCause, wellSince, overdone, unexplained, easeOff } = signs;
  // a bike whose fault cannot be named yet is watched; a named one needs hands even where there is nothing to turn
  const needsService =
    (unexplained?.low ?? 0) > TROUBLE_TO_SERVICE ||
    (!wellSince && ((fault >= SERVICE_FROM && namesCause) || (!easeOff && trouble.low > TROUBLE_TO_SERVICE)));
  if (toLookAt || overdone || (enough && needsService && !signs.heldBack)) return 'service';
  if (signs.heldBack) return signs.heldBack.code === 'one-cog-off' ? 'service' : 'too little data';
  if (signs.leftTheCassette.sure > 0 || signs.unproven.length > 0) return 'watch';
  if (!enough) return 'too little data';
  if (lostAny(signs)) return 'watch';
  if (showsNoFault(signs)) return trouble.high < WENT_WELL_BELOW ? 'fine' : 'too little data';
  return fault >= WATCH_FROM || trouble.low > TROUBLE_TO_WATCH ? 'watch' : 'fine';
}

/** Whether a chain came off since the last adjustment, or may have. */
const lostAny = ({ leftTheCassette, cameOffElsewhere }: StateSigns): boolean =>
  [leftTheCassette, cameOffElsewhere].some(({ sure, unsure }) => sure + unsure > 0);

/** True where the rides show no fault, though the priors of all together may outweigh that of none. */
export function showsNoFault({
  fault,
  faultLeads,
  namesCause,
  wellSince,
  cured,
  aboutLast,
  unexplained,
  trouble,
  weighed,
}: StateSigns): boolean {
  if (fault < WATCH_FROM || faultLeads || namesCause || wellSince || cured || aboutLast || unexplained) return false;
  return weighed.events === 0 && (trouble.rate ?? 0) <= NEXT_TO_NOTHING && trouble.low <= TROUBLE_TO_WATCH;
}
