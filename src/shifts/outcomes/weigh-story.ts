import type { OutcomeProbability } from '../ride-events.ts';
import type { ShiftStories } from '../stories/shift-stories.ts';
import { WAYS, type Way } from '../stories/story.ts';
import { REV_STEP } from '../stories/turn-chances.ts';
import { CLEAN_WITHIN_REVS, LATE_WITHIN_REVS } from '../turn-limits.ts';

/** Shares of the ways a shift can go. */
export type Shares = Record<Way, number>;

const none: Readonly<Shares> = { clean: 0, slow: 0, late: 0, veryLate: 0, never: 0, overshot: 0 };

/** Likelihood of a shift's records for each way it can have gone. */
export function wayLikelihoods({ stories }: Pick<ShiftStories, 'stories'>): Shares {
  const ways = { ...none };
  for (const { way, byTurns } of stories) for (let k = 0; k < byTurns.length; k++) ways[way] += byTurns[k];
  return ways;
}

/** The contract's outcomes: one that comes very late was missed too, and a slow one that comes in time is clean. */
export const outcomesOf = ({ clean, slow, late, veryLate, never, overshot }: Readonly<Shares>): OutcomeProbability => ({
  clean: clean + slow,
  late,
  missed: veryLate + never,
  overshot,
});

/** Ways of a shift that comes to its cog before it is missed. */
const IN_TIME: readonly Way[] = ['clean', 'slow', 'late'];

/** One shift weighed: the probability of each outcome, and the revolutions it took if it was done. */
interface WeighedStory {
  readonly probability: OutcomeProbability;
  /** A clean one's as shifts usually take: that those onto some cogs are slower in good order says nothing of faults, and would be read so. */
  readonly crankRevs: (outcome: 'clean' | 'late') => number;
}

/** Sets the likelihoods of a shift's stories against how often shifts go each way. */
export function weighStory(
  { stories, stepsPedalled, alreadyThere }: ShiftStories,
  shares: Readonly<Shares>,
): WeighedStory {
  const parts = { ...none };
  const turns = { ...none };
  for (const { way, byTurns } of stories) {
    for (let k = 0; k < byTurns.length; k++) {
      const part = shares[way] * byTurns[k];
      if (!IN_TIME.includes(way)) parts[way] += part;
      // the rider shifted again before so many turns: that the chain came there later is no success
      else if (k >= stepsPedalled) parts.veryLate += part;
      else {
        parts[way] += part;
        turns[way] += part * (k + 0.5) * REV_STEP;
      }
    }
  }
  if (alreadyThere) {
    // every number of turns shows the same: the chain had no way to go, so nothing was late
    parts.clean += parts.late + parts.veryLate;
    parts.late = 0;
    parts.veryLate = 0;
  }
  const total = WAYS.reduce((sum, way) => sum + parts[way], 0) || 1;
  for (const key of Object.keys(parts) as Way[]) parts[key] /= total;
  return {
    probability: outcomesOf(parts),
    crankRevs: (outcome) =>
      alreadyThere
        ? 0
        : parts[outcome] > 0
          ? turns[outcome] / total / parts[outcome]
          : outcome === 'late'
            ? LATE_WITHIN_REVS
            : CLEAN_WITHIN_REVS,
  };
}
