import type { ArrivalTable } from './arrival-table.ts';
import type { RevolutionClock } from './revolution-clock.ts';
import { cleanDensity, lateDensity, REV_STEP, REVS, revolutionsLikelihood, type ShiftTiming } from './shift-timing.ts';

/** Likelihoods of the ways one shift can have gone, a common factor left out. `revs[k]`: done after k steps of the revolutions grid. */
export interface ShiftStories {
  readonly revs: Float64Array;
  /** The same for a shift that was late: over several cogs it may have gone as far as the cog before the commanded one in time. */
  readonly lateLikelihood: Float64Array;
  /** The chain stayed where it was. */
  readonly never: number;
  /** It stopped on a cog short of the commanded one. */
  readonly short: number;
  readonly beyond: number;
  /** Steps of the grid that were pedalled before the rider shifted again. */
  readonly stepsPedalled: number;
  readonly alreadyThere: boolean;
  /** Cogs from the start to the commanded one. */
  readonly over: number;
}

/** Of late shifts over several cogs, the share that only the last cog made late (assumption of ours). */
const HALTED_SHARE = 0.5;

/** Sums the arrival tables of all readings of a shift's surroundings into the likelihoods of its stories. */
export function shiftStories(
  tables: readonly ArrivalTable[],
  timing: ShiftTiming,
  clock: RevolutionClock,
): ShiftStories {
  const { shift } = tables[0];
  const beyondSign = shift.toCog > shift.fromCog ? 1 : -1;
  let top = Number.NEGATIVE_INFINITY;
  const read = tables.map((table) => {
    const revs = new Map([...table.rows].map(([cog, row]) => [cog, revolutionsLikelihood(row, table, timing, clock)]));
    top = Math.max(top, table.stay, ...[...revs.values()].map((values) => Math.max(...values)));
    const halted = table.halted && revolutionsLikelihood(table.halted, table, timing, clock);
    if (halted) top = Math.max(top, ...halted);
    return { table, revs, halted };
  });
  const stories = {
    revs: new Float64Array(REVS),
    lateLikelihood: new Float64Array(REVS),
    never: 0,
    short: 0,
    beyond: 0,
  };
  for (const { table, revs, halted } of read) {
    const { weight, startCog } = table.context;
    const prompt: Record<'short' | 'beyond', number[]> = { short: [], beyond: [] };
    for (const [cog, values] of revs) {
      if (cog === shift.toCog)
        values.forEach((value, k) => {
          const likelihood = weight * Math.exp(value - top);
          stories.revs[k] += likelihood;
          stories.lateLikelihood[k] += halted
            ? (1 - HALTED_SHARE) * likelihood + HALTED_SHARE * weight * Math.exp(halted[k] - top)
            : likelihood;
        });
      else if (cog !== startCog) {
        let sum = 0;
        for (let k = 0; k < REVS; k++)
          sum += (0.7 * cleanDensity[k] + 0.3 * lateDensity[k]) * Math.exp(values[k] - top);
        prompt[(cog - shift.toCog) * beyondSign > 0 ? 'beyond' : 'short'].push(sum);
      }
    }
    if (startCog !== shift.toCog) stories.never += weight * Math.exp(table.stay - top);
    for (const name of ['short', 'beyond'] as const)
      if (prompt[name].length > 0)
        stories[name] += (weight * prompt[name].reduce((a, b) => a + b, 0)) / prompt[name].length;
  }
  return {
    ...stories,
    stepsPedalled: (clock.at(shift.untilS + timing.lagS) - clock.at(shift.lastTimeS + timing.lagS)) / REV_STEP,
    over: Math.max(...tables.map(({ context }) => Math.abs(shift.toCog - context.startCog))),
    alreadyThere: tables.every(({ context }) => context.startCog === shift.toCog),
  };
}
