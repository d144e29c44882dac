import type { CommandedShift } from '../commands/commanded-shifts.ts';
import type { ShiftStories } from '../stories/shift-stories.ts';
import { WAYS, type Way } from '../stories/story.ts';
import { type ExpectedShift, troubleRates } from './trouble-rates.ts';
import { type Shares, wayLikelihoods } from './weigh-story.ts';

/** The ways of a shift with which something is wrong. */
const kinds = WAYS.filter((way) => way !== 'clean' && way !== 'slow');
type Split = Readonly<Record<Exclude<Way, 'clean' | 'slow'>, number>>;

/** How trouble splits before the ride has told (assumption of ours), and how many troubled shifts that counts for. */
const START_SPLIT: Split = { late: 0.5, veryLate: 0.06, never: 0.4, overshot: 0.04 };
const START_WEIGHT = 8;
const ROUNDS = 4;

/**
 * For each shift with a story, how shifts like it go on this ride, the shift itself left out. How much goes wrong is weighed for each
 * direction and cog: faults sit at single cogs or in one direction, and there even a doubtful miss is likely one; so is whether clean
 * shifts onto the cog are slow, which would else look like a cog of its own trouble. How trouble splits
 * into late and missed is found for each direction by expectation-maximization (empirical Bayes: Efron and Morris 1973).
 */
export function outcomeShares(
  commanded: readonly CommandedShift[],
  stories: readonly (ShiftStories | null)[],
): (Shares | null)[] {
  const shares = stories.map((): Shares | null => null);
  for (const direction of ['to-larger', 'to-smaller'] as const) {
    const indices = [...stories.keys()].filter((i) => stories[i] && commanded[i].direction === direction);
    const likelihoods = indices.map((i) => wayLikelihoods(stories[i] as ShiftStories));
    const cogs = indices.map((i) => commanded[i].toCog);
    directionShares(cogs, likelihoods).forEach((found, j) => {
      shares[indices[j]] = found;
    });
  }
  return shares;
}

function directionShares(cogs: readonly number[], likelihoods: readonly Shares[]): Shares[] {
  let split = START_SPLIT;
  let shares: Shares[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    const now = split;
    const expected = troubleRates(
      likelihoods.map((ways, j) => ({
        cog: cogs[j],
        clean: ways.clean,
        slow: ways.slow,
        trouble: kinds.reduce((sum, kind) => sum + now[kind] * ways[kind], 0),
      })),
    );
    shares = expected.map((one) => scaled(now, one));
    split = splitOf(shares, likelihoods);
  }
  return shares;
}

const scaled = (split: Split, { rate, slow }: ExpectedShift): Shares => ({
  clean: (1 - rate) * (1 - slow),
  slow: (1 - rate) * slow,
  late: rate * split.late,
  veryLate: rate * split.veryLate,
  never: rate * split.never,
  overshot: rate * split.overshot,
});

/** How the troubled shifts split, each as far as it is troubled. */
function splitOf(shares: readonly Shares[], likelihoods: readonly Shares[]): Split {
  const counts = { ...START_SPLIT };
  for (const kind of kinds) counts[kind] *= START_WEIGHT;
  shares.forEach((share, j) => {
    const ways = likelihoods[j];
    const total = WAYS.reduce((sum, way) => sum + share[way] * ways[way], 0);
    if (total > 0) for (const kind of kinds) counts[kind] += (share[kind] * ways[kind]) / total;
  });
  const sum = kinds.reduce((a, kind) => a + counts[kind], 0);
  for (const kind of kinds) counts[kind] /= sum;
  return counts;
}
