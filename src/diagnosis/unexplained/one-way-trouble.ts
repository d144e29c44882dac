import { stratifiedFewer } from '../../numeric/stratified-fewer.ts';
import type { Direction } from '../../shifts/ride-events.ts';
import type { RidingEvidence } from '../evidence/build-evidence.ts';
import { countsAlike } from './counts-alike.ts';

/** Chance that trouble of a bike in order would lie so much to one side. An assumption of ours. */
const BY_CHANCE = 0.0001;

/**
 * The direction in which so many more shifts went wrong than in the other that it is no chance: then something is at fault, whatever it is.
 * Null where nothing is as plain as that. Trouble counts as far as it is sure, and shifts are held only against those under a like load and
 * between the same adjustments, so that neither what may have been misread nor a rider who presses hard makes a fault of it, and no
 * ride that went well after a cure takes back that there was one.
 */
export function oneWayTrouble(evidence: RidingEvidence): Direction | null {
  const largerFails = stratifiedFewer(countsAlike(evidence, ({ direction }) => direction === 'to-larger'));
  if (largerFails > 1 - BY_CHANCE / 2) return 'to-larger';
  return largerFails < BY_CHANCE / 2 ? 'to-smaller' : null;
}
