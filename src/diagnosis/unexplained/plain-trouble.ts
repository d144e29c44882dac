import { upperFirst } from '../../numeric/upper-first.ts';
import type { Direction } from '../../shifts/ride-events.ts';
import type { RidingEvidence } from '../evidence/build-evidence.ts';
import { cogFarAbove } from './cog-far-above.ts';
import { oneWayTrouble } from './one-way-trouble.ts';

/** Shifts that fail as they do on no bike in order, against all others of the same bike: something is at fault, whatever it is. */
export interface PlainTrouble {
  readonly direction: Direction;
  /** The one cog onto which they fail (cassette index); null: they fail in that direction as a whole. */
  readonly cog: number | null;
}

/** The direction that plainly fails, else the one cog that does; null where neither does. */
export function plainTrouble(evidence: RidingEvidence, cassetteLength: number): PlainTrouble | null {
  const direction = oneWayTrouble(evidence);
  return direction ? { direction, cog: null } : cogFarAbove(evidence, cassetteLength);
}

type Fail = 'fail' | 'failed';

/** That shifts onto a cog (teeth) fail more than those onto all others, within a sentence. */
export const failingOnto = (teeth: number, fail: Fail = 'fail'): string =>
  `shifts onto the ${teeth} plainly ${fail} more often than all others`;

/** That they fail, within a sentence; `fail`: now, or as it was seen. */
export const failingPlainly = (
  { direction, cog }: PlainTrouble,
  cassette: readonly number[],
  fail: Fail = 'fail',
): string =>
  cog === null
    ? `shifts ${direction.replace('-', ' ')} cogs plainly ${fail} more often than those the other way`
    : failingOnto(cassette[cog], fail);

/**
 * The same of what was seen, as sentences of the evidence. A rider shifts to larger cogs where he presses hardest, so that without power nobody knows whether
 * those shifts fail by the bike or by the pressing.
 */
export const failedPlainly = (plain: PlainTrouble, cassette: readonly number[], notByLoad: boolean): string =>
  `${upperFirst(failingPlainly(plain, cassette, 'failed'))}, ${plain.direction === 'to-larger' && !notByLoad ? MAY_BE_LOAD : AT_FAULT}`;
const AT_FAULT = 'as on no bike in order: something was at fault, whatever it was.';
const MAY_BE_LOAD =
  'as on no bike in order that is shifted with soft legs. No power was recorded, so hard pedalling may do it too: ease off while shifting for a ride before a part is touched.';
