import { studentT4Cost } from '../../numeric/student-t.ts';
import type { Rung } from '../ladder/ladder-peaks.ts';
import { GUESSED_COGS } from './cassette-cost.ts';

/** A gear that a rung of the ladder may be, and how badly it fits, in nats. `ring` is an index; -1 with `cog` 0: the rung is no gear. */
export interface RungGear {
  readonly ring: number;
  readonly cog: number;
  readonly misfit: number;
}

/** How far a rung stands off its gear: sensors alike for all, and chance by how long it was ridden (as the test rides show). */
const OFF = { least: 0.003, perRootSecond: 0.05 };
/** A gear further off than this, in log development, is not the rung's. */
const FAR_OFF = 0.03;
/** Cost of a rung that is no gear, in nats; rungs ridden for less than a minute weigh less. */
const NO_GEAR = 9;
const FULL_WEIGHT_S = 60;

/** The gears of these rings near a rung, whatever the cassette, and that it is none, which comes first. */
export function rungGears({ logDevelopment, seconds }: Rung, rings: readonly number[], logRollout: number): RungGear[] {
  const weight = Math.min(1, seconds / FULL_WEIGHT_S);
  const deviation = Math.hypot(OFF.least, OFF.perRootSecond / Math.sqrt(seconds));
  const gears: RungGear[] = [{ ring: -1, cog: 0, misfit: weight * NO_GEAR }];
  for (let ring = 0; ring < rings.length; ring++) {
    const exact = rings[ring] * Math.exp(logRollout - logDevelopment);
    for (const cog of [Math.floor(exact), Math.floor(exact) + 1]) {
      const off = Math.log(exact / cog);
      if (cog < GUESSED_COGS.least || cog > GUESSED_COGS.most || Math.abs(off) > FAR_OFF) continue;
      gears.push({ ring, cog, misfit: weight * Math.min(NO_GEAR, studentT4Cost(off / deviation)) });
    }
  }
  return gears;
}
