import { stratifiedFewer } from '../../numeric/stratified-fewer.ts';
import type { Direction } from '../../shifts/ride-events.ts';
import type { RidingEvidence } from '../evidence/build-evidence.ts';
import { LOAD_BINS, loadBin } from '../evidence/evidence-table.ts';
import { troubleShare } from '../evidence/outcome-fit.ts';
import { weighedShifts } from './weighed-shifts.ts';

/** Chance that trouble of a bike in order would lie so much to one side. An assumption of ours. */
const BY_CHANCE = 0.0001;
/** Sure ones add up to a hair less than their number. */
const A_HAIR = 0.1;

const directions: readonly Direction[] = ['to-larger', 'to-smaller'];

/**
 * The direction in which so many more shifts went wrong than in the other that it is no chance: then something is at fault, whatever it is.
 * Null where nothing is as plain as that. Trouble counts as far as it is sure, and shifts are held only against those under a like load, so that
 * neither what may have been misread nor a rider who presses hard makes a fault of it.
 */
export function oneWayTrouble(evidence: RidingEvidence): Direction | null {
  const count = (): Record<Direction, { bad: number; of: number }> => ({
    'to-larger': { bad: 0, of: 0 },
    'to-smaller': { bad: 0, of: 0 },
  });
  const byLoad = Array.from({ length: LOAD_BINS }, count);
  for (const { shift } of weighedShifts(evidence)) {
    const own = byLoad[loadBin(shift.torqueNm, evidence.edges)][shift.direction];
    own.of++;
    if (shift.outcome !== 'clean') own.bad += troubleShare(shift);
  }
  const surely = ({ bad, of }: { bad: number; of: number }) => ({ bad: Math.floor(bad + A_HAIR), of });
  const strata = byLoad.map((load) => ({ before: surely(load['to-larger']), after: surely(load['to-smaller']) }));
  const largerFails = stratifiedFewer(strata);
  const [larger, smaller] = directions;
  if (largerFails > 1 - BY_CHANCE / 2) return larger;
  return largerFails < BY_CHANCE / 2 ? smaller : null;
}

/** That shifts fail one way, within a sentence. */
export const failingOneWay = (direction: Direction): string =>
  `shifts ${direction.replace('-', ' ')} cogs plainly fail more often than those the other way`;
