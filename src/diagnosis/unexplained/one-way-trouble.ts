import { stratifiedFewer } from '../../numeric/stratified-fewer.ts';
import type { Direction } from '../../shifts/ride-events.ts';
import type { RidingEvidence } from '../evidence/build-evidence.ts';
import { LOAD_BINS, loadBin } from '../evidence/evidence-table.ts';
import { troubleShare } from '../evidence/outcome-fit.ts';
import { sureCount } from './sure-count.ts';
import { weighedShifts } from './weighed-shifts.ts';

/** Chance that trouble of a bike in order would lie so much to one side. An assumption of ours. */
const BY_CHANCE = 0.0001;

const directions: readonly Direction[] = ['to-larger', 'to-smaller'];

type Counts = Record<Direction, { bad: number; of: number }>;

/**
 * The direction in which so many more shifts went wrong than in the other that it is no chance: then something is at fault, whatever it is.
 * Null where nothing is as plain as that. Trouble counts as far as it is sure, and shifts are held only against those under a like load and
 * between the same adjustments, so that neither what may have been misread nor a rider who presses hard makes a fault of it, and no
 * ride that went well after a cure takes back that there was one.
 */
export function oneWayTrouble(evidence: RidingEvidence): Direction | null {
  const alike = countsAlike(evidence);
  const [larger, smaller] = directions;
  const [ofLarger, ofSmaller] = directions.map((direction) => surely(alike.map((one) => one[direction])));
  const largerFails = stratifiedFewer(ofLarger.map((before, i) => ({ before, after: ofSmaller[i] })));
  if (largerFails > 1 - BY_CHANCE / 2) return larger;
  return largerFails < BY_CHANCE / 2 ? smaller : null;
}

/** Whole counts of trouble, no more of it up to any of them than is sure: what is left over is carried to the next. */
function surely(counts: readonly Counts[Direction][]): Counts[Direction][] {
  let sum = 0;
  return counts.map(({ bad, of }) => {
    const before = sureCount(sum);
    sum += bad;
    return { bad: sureCount(sum) - before, of };
  });
}

/** Shifts in either direction under each load between each two groups of adjustments. */
function countsAlike(evidence: RidingEvidence): Counts[] {
  const alike = Array.from(
    { length: LOAD_BINS * (evidence.groups.length + 1) },
    (): Counts => ({
      'to-larger': { bad: 0, of: 0 },
      'to-smaller': { bad: 0, of: 0 },
    }),
  );
  for (const { atMs, shift } of weighedShifts(evidence)) {
    const period = evidence.groups.filter(({ lastMs }) => lastMs <= atMs).length;
    const own = alike[period * LOAD_BINS + loadBin(shift.torqueNm, evidence.edges)][shift.direction];
    own.of++;
    if (shift.outcome !== 'clean') own.bad += troubleShare(shift);
  }
  return alike;
}

/** That shifts fail one way, within a sentence. */
export const failingOneWay = (direction: Direction): string =>
  `shifts ${direction.replace('-', ' ')} cogs plainly fail more often than those the other way`;

/**
 * The same of what was seen, as sentences of the evidence. A rider shifts to larger cogs where he presses hardest, so that without power nobody knows whether
 * those shifts fail by the bike or by the pressing.
 */
export const failedOneWay = (direction: Direction, loadKnown: boolean): string =>
  `Shifts ${direction.replace('-', ' ')} cogs plainly failed more often than those the other way, ${direction === 'to-larger' && !loadKnown ? MAY_BE_LOAD : AT_FAULT}`;
const AT_FAULT = 'as on no bike in order: something was at fault, whatever it was.';
const MAY_BE_LOAD =
  'as on no bike in order that is shifted with soft legs. No power was recorded, so hard pedalling may do it too: ease off while shifting for a ride before a part is touched.';
