import type { CassetteEnd } from '../../adjustments/end-cog-count.ts';
import { seededRandom } from '../../numeric/seeded-random.ts';
import { upperFirst } from '../../numeric/upper-first.ts';
import type { CheckRide, CheckRideBlock } from '../diagnosis.ts';
import type { LookAhead, PlannedShifts } from '../posterior/look-ahead.ts';
import { ImaginedRides } from './imagined-rides.ts';
import { FIRM_MUST_TELL, safeShifts } from './safe-shifts.ts';

/** How often a check ride asks for one shift, and as often back. */
export const TIMES_EACH_WAY = 6;
const MOST_BLOCKS = 3;
/** A further block that adds less than this is left out: the plan has to be kept in the head. */
const WORTHWHILE_BITS = 0.03;

interface Candidate {
  readonly smallCog: number;
  readonly firm: boolean;
}

const shiftsOf = ({ smallCog, firm }: Candidate): PlannedShifts[] => [
  { cog: smallCog + 1, larger: true, firm, count: TIMES_EACH_WAY },
  { cog: smallCog, larger: false, firm, count: TIMES_EACH_WAY },
];

const words = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight'];

function blocksOf({ smallCog, firm }: Candidate, cassette: readonly number[]): CheckRideBlock[] {
  const [small, large] = [cassette[smallCog], cassette[smallCog + 1]];
  const load = firm ? 'firm' : 'soft';
  return [
    { count: TIMES_EACH_WAY, fromTeeth: small, toTeeth: large, direction: 'to-larger', load },
    { count: TIMES_EACH_WAY, fromTeeth: large, toTeeth: small, direction: 'to-smaller', load },
  ];
}

function sentenceOf({ smallCog, firm }: Candidate, cassette: readonly number[], first: boolean): string {
  const how = firm ? 'pressing firmly on the pedals' : 'soft on the pedals';
  return `${first ? '' : 'Then '}${words[TIMES_EACH_WAY]} times from the ${cassette[smallCog]} to the ${cassette[smallCog + 1]} and back, seated, ${how}, with five turns of the crank after each shift.`;
}

/** Cogs that nobody is sent onto. */
export interface KeptFrom {
  /** Cassette indices of cogs that are named nowhere, since no ride shows them. */
  readonly unseen: ReadonlySet<number>;
  /** Ends past which the chain may be lost. */
  readonly atRisk: ReadonlySet<CassetteEnd>;
}

/** Pairs of cogs that are there and safe to ride on purpose. */
function safeCandidates(cogCount: number, { unseen, atRisk }: KeptFrom): Candidate[] {
  const isSafe = safeShifts(cogCount, atRisk);
  const safe = (cog: number, firm: boolean): boolean => !unseen.has(cog) && isSafe(cog, firm);
  const pairs = Array.from({ length: cogCount - 1 }, (_, smallCog) =>
    [false, true].map((firm) => ({ smallCog, firm })),
  );
  return pairs.flat().filter(({ smallCog, firm }) => safe(smallCog, firm) && safe(smallCog + 1, firm));
}

/** As many shifts as the plan asks for, spread over the cassette as the rider spreads them by habit. */
function ordinaryShifts(total: number, usage: Float64Array): PlannedShifts[] {
  const last = usage.length - 1;
  const places = Array.from(usage, (use, cog) => [
    { cog, larger: true, weight: cog > 0 ? use : 0 },
    { cog, larger: false, weight: cog < last ? use : 0 },
  ]).flat();
  const sum = places.reduce((all, { weight }) => all + weight, 0);
  let carried = 0;
  return places.flatMap(({ cog, larger, weight }) => {
    carried += (total * weight) / sum;
    const count = Math.round(carried);
    carried -= count;
    return count > 0 ? [{ cog, larger, firm: false, count }] : [];
  });
}

const onSmoothGround =
  'Ride it on smooth, even ground away from traffic, with the recording on, and stop at once if the chain leaves the cogs.';

/** No plan: nothing is to be ridden on purpose. */
export const noCheckRide: CheckRide = { blocks: [], sentences: [], expectedBits: 0, ordinaryBits: 0 };

/** The shifts of a plan. */
export const shiftsPlanned = ({ blocks }: Pick<CheckRide, 'blocks'>, cassette: readonly number[]): PlannedShifts[] =>
  blocks.map(({ toTeeth, direction, load, count }) => ({
    cog: cassette.indexOf(toTeeth),
    larger: direction === 'to-larger',
    firm: load === 'firm',
    count,
  }));

/** The plan with a stretch under load before its shifts: what a worn drivetrain does shows in no shift, and most on the cog used most. */
export function withSkipStretch(plan: CheckRide, mostUsedTeeth: number, minutes: string): CheckRide {
  const stretch = `Pedal for at least ${minutes} minutes in all on the ${mostUsedTeeth}, the cog used most, seated, pressing firmly but without sprinting, and do not shift meanwhile: skips under load tell most.`;
  return { ...plan, sentences: [stretch, ...(plan.sentences.length > 0 ? plan.sentences : [onSmoothGround])] };
}

/**
 * The few shifts that are expected to tell most about the cause: pairs of neighbouring cogs, there and back, chosen one
 * after another by expected information gain (Lindley 1956). None where no such pair is known to be there and safe.
 */
export function planCheckRide(
  lookAhead: Pick<LookAhead, 'particles' | 'expect'>,
  cassette: readonly number[],
  usage: Float64Array,
  keptFrom: KeptFrom,
): CheckRide {
  const rides = new ImaginedRides(lookAhead, seededRandom(47, 'check ride'));
  const candidates = safeCandidates(cassette.length, keptFrom);
  if (candidates.length === 0) return noCheckRide;
  let ridden = rides.none();
  let bits = 0;
  const chosen: Candidate[] = [];
  while (chosen.length < MOST_BLOCKS) {
    let best: { candidate: Candidate; ridden: Float64Array[]; bits: number; worth: number } | null = null;
    for (const candidate of candidates) {
      if (chosen.some(({ smallCog }) => smallCog === candidate.smallCog)) continue;
      const after = rides.ride(ridden, shiftsOf(candidate));
      const gained = rides.expectedBits(after);
      const worth = (gained - bits) / (candidate.firm ? FIRM_MUST_TELL : 1);
      if (!best || worth > best.worth) best = { candidate, ridden: after, bits: gained, worth };
    }
    if (!best || (chosen.length > 0 && best.bits < bits + WORTHWHILE_BITS)) break;
    chosen.push(best.candidate);
    ({ ridden, bits } = best);
  }
  chosen.sort((a, b) => a.smallCog - b.smallCog);
  const total = chosen.length * 2 * TIMES_EACH_WAY;
  return {
    blocks: chosen.flatMap((candidate) => blocksOf(candidate, cassette)),
    sentences: [...chosen.map((candidate, i) => upperFirst(sentenceOf(candidate, cassette, i === 0))), onSmoothGround],
    expectedBits: bits,
    ordinaryBits: rides.expectedBits(rides.ride(rides.none(), ordinaryShifts(total, usage))),
  };
}
