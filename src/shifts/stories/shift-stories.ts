import type { RevolutionClock } from '../turns/revolution-clock.ts';
import type { ArrivalTable } from './arrival-table.ts';
import { revolutionsLikelihood, type ShiftTiming } from './shift-timing.ts';
import type { StoryName, Way } from './story.ts';
import { REV_STEP, REVS } from './turn-chances.ts';

/** One story of a shift, all readings of its surroundings taken together. */
export interface StoryByTurns {
  readonly name: StoryName;
  readonly way: Way;
  /**
   * Likelihood of the records by the turns that the shift took, `[k]`: k + 0.5 steps of the revolutions grid, times the chance of that many
   * turns and the story's share among those of its way. Their sum is the story's part in the likelihood of its way. A factor common to
   * all stories of the shift is left out.
   */
  readonly byTurns: Float64Array;
}

/** All that a shift's records say of how it can have gone. */
export interface ShiftStories {
  /** Each name once; stories that are in question in no reading are not there. */
  readonly stories: readonly StoryByTurns[];
  /** Steps of the grid that were pedalled before the rider shifted again. */
  readonly stepsPedalled: number;
  /** The chain lay on the commanded cog before, in every reading. */
  readonly alreadyThere: boolean;
}

/** Turns moments of arrival into turns of the cranks, and sums the stories over all readings of a shift's surroundings. */
export function shiftStories(
  tables: readonly ArrivalTable[],
  timing: ShiftTiming,
  clock: RevolutionClock,
): ShiftStories {
  const { shift } = tables[0];
  const rows = tables.map((table) => rowsByTurns(table, timing, clock));
  const top = Math.max(...rows.flatMap((byTurns) => [...byTurns.values()].map((row) => Math.max(...row))));
  const told = new Map<StoryName, StoryByTurns>();
  tables.forEach(({ stories, context }, t) => {
    for (const { name, way, share, turnChances, byArrival } of stories) {
      const story = told.get(name) ?? { name, way, byTurns: new Float64Array(REVS) };
      told.set(name, story);
      const row = rows[t].get(byArrival) as Float64Array;
      const weight = context.weight * share;
      for (let k = 0; k < REVS; k++)
        if (turnChances[k] > 0) story.byTurns[k] += weight * turnChances[k] * Math.exp(row[k] - top);
    }
  });
  return {
    stories: [...told.values()],
    stepsPedalled: (clock.at(shift.untilS + timing.lagS) - clock.at(shift.lastTimeS + timing.lagS)) / REV_STEP,
    alreadyThere: tables.every(({ context }) => context.startCog === shift.toCog),
  };
}

/** Log likelihood by turns of each row by arrival in a table; stories that share a row share the result. */
function rowsByTurns(
  table: ArrivalTable,
  timing: ShiftTiming,
  clock: RevolutionClock,
): Map<Float64Array, Float64Array> {
  const rows = new Set(table.stories.map(({ byArrival }) => byArrival));
  return new Map([...rows].map((row) => [row, revolutionsLikelihood(row, table, timing, clock)]));
}
