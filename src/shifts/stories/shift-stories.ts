import { mean, sum } from 'd3-array';
import type { RevolutionClock } from '../turns/revolution-clock.ts';
import type { ArrivalTable } from './arrival-table.ts';
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

/** How the turns of a shift that stopped on another cog than the commanded one are spread: clean ones and late ones (assumption of ours). */
const ELSEWHERE = { clean: 0.7, late: 0.3 } as const;
const elsewhereDensity = cleanDensity.map((clean, k) => ELSEWHERE.clean * clean + ELSEWHERE.late * lateDensity[k]);

/** Of shifts that ended beyond the commanded cog, the share that was on it for a while, and the turns after which it ran on (assumptions of ours). */
const RAN_ON_SHARE = 0.5;
const RAN_ON = { soon: 0.3, later: 0.7 } as const;
const ranOnDensity = cleanDensity.map((clean, k) => RAN_ON.soon * clean + RAN_ON.later * lateDensity[k]);

/** One reading of a shift's surroundings, with the log likelihood of each number of turns, by final cog. */
interface Reading {
  readonly table: ArrivalTable;
  readonly revs: ReadonlyMap<number, Float64Array>;
  /** The same for a shift over several cogs that only the last one made late; null where there is none. */
  readonly halted: Float64Array | null;
  /** The same for one that ran on beyond the commanded cog after having been on it; null where there is none. */
  readonly ranOn: Float64Array | null;
}

/** Sums the arrival tables of all readings of a shift's surroundings into the likelihoods of its stories. */
export function shiftStories(
  tables: readonly ArrivalTable[],
  timing: ShiftTiming,
  clock: RevolutionClock,
): ShiftStories {
  const { shift } = tables[0];
  const readings = tables.map((table): Reading => {
    const likelihood = (row: Float64Array): Float64Array => revolutionsLikelihood(row, table, timing, clock);
    const revs = new Map([...table.rows].map(([cog, row]) => [cog, likelihood(row)]));
    return {
      table,
      revs,
      halted: table.halted && likelihood(table.halted),
      ranOn: table.ranOn && likelihood(table.ranOn),
    };
  });
  const top = Math.max(...readings.flatMap(heights));
  const stories = {
    revs: new Float64Array(REVS),
    lateLikelihood: new Float64Array(REVS),
    never: 0,
    short: 0,
    beyond: 0,
  };
  for (const reading of readings) addReading(stories, reading, top);
  return {
    ...stories,
    stepsPedalled: (clock.at(shift.untilS + timing.lagS) - clock.at(shift.lastTimeS + timing.lagS)) / REV_STEP,
    over: Math.max(...tables.map(({ context }) => Math.abs(shift.toCog - context.startCog))),
    alreadyThere: tables.every(({ context }) => context.startCog === shift.toCog),
  };
}

/** Heights of all of a reading's log likelihoods. */
function heights({ table, revs, halted, ranOn }: Reading): number[] {
  const columns = [...revs.values(), ...(halted ? [halted] : []), ...(ranOn ? [ranOn] : [])];
  return [table.stay, ...columns.map((values) => Math.max(...values))];
}

/** Adds one reading, weighed, to the sums of the stories. `top`: the highest log likelihood of all readings. */
function addReading(
  stories: Writable<Pick<ShiftStories, 'revs' | 'lateLikelihood' | 'never' | 'short' | 'beyond'>>,
  { table, revs, halted, ranOn }: Reading,
  top: number,
): void {
  const { shift, context, stay } = table;
  const { weight, startCog } = context;
  const inward = shift.toCog > shift.fromCog ? 1 : -1;
  const elsewhere: Record<'short' | 'beyond', number[]> = { short: [], beyond: [] };
  for (const [cog, values] of revs) {
    if (cog === shift.toCog)
      values.forEach((value, k) => {
        const likelihood = weight * Math.exp(value - top);
        stories.revs[k] += likelihood;
        stories.lateLikelihood[k] += halted
          ? (1 - HALTED_SHARE) * likelihood + HALTED_SHARE * weight * Math.exp(halted[k] - top)
          : likelihood;
      });
    else if (cog !== startCog)
      elsewhere[(cog - shift.toCog) * inward > 0 ? 'beyond' : 'short'].push(
        sum(values, (value, k) => elsewhereDensity[k] * Math.exp(value - top)),
      );
  }
  if (startCog !== shift.toCog) stories.never += weight * Math.exp(stay - top);
  const beyond = mean(elsewhere.beyond) ?? 0;
  const onAfter = ranOn ? sum(ranOn, (value, k) => ranOnDensity[k] * Math.exp(value - top)) : beyond;
  stories.beyond += weight * ((1 - RAN_ON_SHARE) * beyond + RAN_ON_SHARE * onAfter);
  stories.short += weight * (mean(elsewhere.short) ?? 0);
}

type Writable<T> = { -readonly [K in keyof T]: T[K] };
