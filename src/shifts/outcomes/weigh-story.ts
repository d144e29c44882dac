import type { OutcomeProbability } from '../ride-events.ts';
import type { ShiftStories } from '../stories/shift-stories.ts';
import { cleanDensity, lateDensity, REV_STEP, veryLateDensity } from '../stories/shift-timing.ts';
import { CLEAN_WITHIN_REVS, LATE_WITHIN_REVS } from '../turn-limits.ts';

/** Shares of the ways a shift can go. */
export interface Shares {
  clean: number;
  late: number;
  veryLate: number;
  never: number;
  overshot: number;
}

/** Of missed shifts, the share that stops on a cog between; where none seems to lie between, the trace may have mistaken the start. */
const HALTED_MISSES = { single: 0.15, overSeveral: 0.5 } as const;

/** Likelihood of a shift's records for each way it can have gone. */
export function wayLikelihoods(story: ShiftStories): Shares {
  const ways: Shares = { clean: 0, late: 0, veryLate: 0, never: stayedShort(story), overshot: story.beyond };
  for (let k = 0; k < story.revs.length; k++) {
    ways.clean += cleanDensity[k] * story.revs[k];
    ways.late += lateDensity[k] * story.lateLikelihood[k];
    ways.veryLate += veryLateDensity[k] * story.lateLikelihood[k];
  }
  return ways;
}

/** A shift that stops on a cog between is a miss too. */
function stayedShort(story: ShiftStories): number {
  const halts = story.over > 1 ? HALTED_MISSES.overSeveral : HALTED_MISSES.single;
  return (1 - halts) * story.never + halts * story.short;
}

/** One shift weighed: the probability of each outcome, and the revolutions it took if it was done. */
interface WeighedStory {
  readonly probability: OutcomeProbability;
  readonly crankRevs: (outcome: 'clean' | 'late') => number;
}

/** Sets the likelihoods of a shift's stories against how often shifts go each way. */
export function weighStory(story: ShiftStories, shares: Shares): WeighedStory {
  const parts: Shares = { clean: 0, late: 0, veryLate: 0, never: 0, overshot: 0 };
  const sums = { clean: 0, late: 0 };
  for (let k = 0; k < story.revs.length; k++) {
    const inTime = k < story.stepsPedalled;
    const clean = shares.clean * cleanDensity[k] * story.revs[k];
    const late = shares.late * lateDensity[k] * story.lateLikelihood[k];
    if (inTime) {
      parts.clean += clean;
      parts.late += late;
      sums.clean += clean * (k + 0.5) * REV_STEP;
      sums.late += late * (k + 0.5) * REV_STEP;
    } else parts.veryLate += clean + late;
    parts.veryLate += shares.veryLate * veryLateDensity[k] * story.lateLikelihood[k];
  }
  parts.never = shares.never * stayedShort(story);
  parts.overshot = shares.overshot * story.beyond;
  if (story.alreadyThere) {
    // every number of turns shows the same: the chain had no way to go, so nothing was late
    parts.clean += parts.late + parts.veryLate;
    parts.late = 0;
    parts.veryLate = 0;
  }
  const total = parts.clean + parts.late + parts.veryLate + parts.never + parts.overshot || 1;
  for (const key of Object.keys(parts) as (keyof Shares)[]) parts[key] /= total;
  const { clean, late, veryLate, never, overshot } = parts;
  return {
    probability: { clean, late, missed: veryLate + never, overshot },
    crankRevs: (outcome) =>
      story.alreadyThere
        ? 0
        : parts[outcome] > 0
          ? sums[outcome] / total / parts[outcome]
          : outcome === 'late'
            ? LATE_WITHIN_REVS
            : CLEAN_WITHIN_REVS,
  };
}
