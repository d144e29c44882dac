import { stratifiedFewer } from '../../numeric/stratified-fewer.ts';
import type { Direction, ShiftEvent } from '../../shifts/ride-events.ts';
import type { RidingEvidence } from '../evidence/build-evidence.ts';
import { cogCell } from '../evidence/evidence-table.ts';
import { troubleAtOwnRate } from './at-own-rate.ts';
import { countsAlike } from './counts-alike.ts';
import { FEWEST_SURE } from './sure-count.ts';
import { weighedShifts } from './weighed-shifts.ts';

/** Chance that any cog of a bike in order would fail so much more than its others; it is shared among all cogs that were ridden. An assumption of ours. */
const BY_CHANCE = 0.01;
/** A cog that fails less often than this where it fails is not worth a look, however well the others shift. An assumption of ours. */
const LEAST_RATE = 0.05;

/** A cog (cassette index) in a direction. */
interface CogOneWay {
  readonly cog: number;
  readonly direction: Direction;
}

/**
 * The one cog onto which so many more shifts went wrong than onto all others that it is no chance, though so many cogs are looked at (Bonferroni);
 * the plainest of several, null where there is none. Counts as in `oneWayTrouble`, but doubtful shifts, those named clean among them, by how often each side goes wrong.
 */
export function cogFarAbove(evidence: RidingEvidence, cassetteLength: number): CogOneWay | null {
  const ridden = new Map<number, CogOneWay>();
  for (const { shift } of weighedShifts(evidence)) {
    const cell = cogCell(cassetteLength, shift.direction === 'to-larger', shift.toCog);
    ridden.set(cell, { cog: shift.toCog, direction: shift.direction });
  }
  const [plainest] = [...ridden.values()]
    .map((one) => ({ one, chance: chanceOf(evidence, one) }))
    .sort((a, b) => a.chance - b.chance);
  return plainest && plainest.chance < BY_CHANCE / ridden.size ? plainest.one : null;
}

/** Chance of so much trouble there by chance; 1 where too little of it is sure. */
function chanceOf(evidence: RidingEvidence, { cog, direction }: CogOneWay): number {
  const isOwn = (shift: ShiftEvent): boolean => shift.toCog === cog && shift.direction === direction;
  const alike = countsAlike(evidence, isOwn, troubleAtOwnRate);
  const failing = alike.filter(({ before }) => before.bad > 0).map(({ before }) => before);
  const sum = (pick: (one: (typeof failing)[number]) => number): number =>
    failing.reduce((total, one) => total + pick(one), 0);
  const bad = sum((one) => one.bad);
  if (bad < FEWEST_SURE || bad < LEAST_RATE * sum(({ of }) => of)) return 1;
  return 1 - stratifiedFewer(alike);
}
