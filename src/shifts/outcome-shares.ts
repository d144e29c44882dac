import { type DirichletComponent, dirichletMixtureMean } from '../numeric/dirichlet-mixture.ts';
import type { CommandedShift } from './commanded-shifts.ts';
import type { ShiftStories } from './shift-stories.ts';
import { type Shares, weighStory } from './weigh-story.ts';

const ways = ['clean', 'late', 'veryLate', 'never', 'overshot'] as const;
const START_SHARES: Shares = { clean: 0.966, late: 0.02, veryLate: 0.002, never: 0.01, overshot: 0.002 };
/**
 * What is known of shifting in one direction before the ride: most bikes are in order and hardly miss a shift, some are out and
 * may miss few or many (assumption of ours; shares in the order of `ways`).
 */
const DIRECTION_PRIOR: readonly DirichletComponent[] = [
  { weight: 0.6, trials: 150, shares: [0.99, 0.005, 0.0005, 0.004, 0.0005] },
  { weight: 0.4, trials: 6, shares: [0.82, 0.09, 0.01, 0.075, 0.005] },
];
/** A cog goes like the others of its direction, or, seldom, has a trouble of its own. */
const LIKE_DIRECTION = { weight: 0.9, trials: 50 };
const OWN_TROUBLE: DirichletComponent = { weight: 0.1, trials: 3, shares: [0.5, 0.2, 0.03, 0.25, 0.02] };
const ROUNDS = 5;

/**
 * The ride's own shares of the ways shifts go, by expectation-maximization (empirical Bayes: Efron and Morris 1973): for each
 * direction, drawn towards what bikes are like, and for each cog and direction, drawn towards its direction. Faults sit at single
 * cogs or in one direction, and there even a doubtful miss is likely one.
 */
export function outcomeShares(
  commanded: readonly CommandedShift[],
  stories: readonly (ShiftStories | null)[],
): (shift: CommandedShift) => Shares {
  const key = (shift: CommandedShift): string => `${shift.direction} ${shift.toCog}`;
  const directions = new Map<string, Shares>();
  const cogs = new Map<string, Shares>();
  const sharesOf = (shift: CommandedShift): Shares =>
    cogs.get(key(shift)) ?? directions.get(shift.direction) ?? START_SHARES;
  for (let round = 0; round < ROUNDS; round++) {
    const byDirection = new Map<string, Shares[]>();
    const byCog = new Map<string, Shares[]>();
    stories.forEach((story, i) => {
      if (!story) return;
      const { parts } = weighStory(story, sharesOf(commanded[i]));
      push(byDirection, commanded[i].direction, parts);
      push(byCog, key(commanded[i]), parts);
    });
    for (const [direction, parts] of byDirection) directions.set(direction, posteriorShares(parts, DIRECTION_PRIOR));
    for (const [name, parts] of byCog) {
      const towards = directions.get(name.split(' ')[0]) ?? START_SHARES;
      const likeDirection = { ...LIKE_DIRECTION, shares: ways.map((way) => towards[way]) };
      cogs.set(name, posteriorShares(parts, [likeDirection, OWN_TROUBLE]));
    }
  }
  return sharesOf;
}

function push(map: Map<string, Shares[]>, name: string, parts: Shares): void {
  const list = map.get(name);
  if (list) list.push(parts);
  else map.set(name, [parts]);
}

function posteriorShares(weighed: readonly Shares[], prior: readonly DirichletComponent[]): Shares {
  const counts = ways.map((way) => weighed.reduce((sum, parts) => sum + parts[way], 0));
  const [clean, late, veryLate, never, overshot] = dirichletMixtureMean(prior, counts);
  return { clean, late, veryLate, never, overshot };
}
