import { sum } from 'd3-array';
import { studentT4Cost } from '../../numeric/student-t.ts';
import type { CogRung } from './cog-rungs.ts';

/** How far a rung stands off the level of its ring: rides and sensors alike for all, and chance by how long it was ridden. */
const OFF = { least: 0.006, perRootSecond: 0.05 };
/** Cost of a rung that is on no ring, in nats; rungs ridden for less than a minute weigh less. */
const NO_RING = 9;
const FULL_WEIGHT_S = 60;
/** A chain that did not reach the cog it was sent to lies this many cogs from it at most, and costs so much, in nats. */
const STRAY = { cogs: 2, cost: 3 };
/** What a cog costs whose recorded teeth are wrong, in nats, and by how much they are wrong, as log (as `pedalledRings` has it). */
const WRONG_TEETH = { cost: 2.5, off: 0.06, most: 0.2 };

/** What recorded cogs are read against: levels of rings (log of metres a turn of a cog of one tooth) and the cassette in teeth. */
interface Rings {
  readonly levels: readonly number[];
  readonly cassette: readonly number[];
}

/**
 * How badly rings of these levels explain where the cogs were pedalled, in nats: lower is likelier.
 *
 * @param levels of the rings, log of metres a turn of a cog of one tooth
 * @param rungs of all cogs
 * @param cassette as recorded, teeth
 */
export function levelsCost(levels: readonly number[], rungs: readonly CogRung[], cassette: readonly number[]): number {
  const rings = { levels, cassette };
  return sum(byCog(rungs, cassette), (own) => likeliestTeeth(own, rings).cost);
}

/** Seconds of the rungs that are on none of these rings, nor those of a chain that did not reach its cog. Parameters as of `levelsCost`. */
export function astraySeconds(
  levels: readonly number[],
  rungs: readonly CogRung[],
  cassette: readonly number[],
): number {
  const rings = { levels, cassette };
  return sum(byCog(rungs, cassette), (own) => {
    const { off } = likeliestTeeth(own, rings);
    return sum(own, (rung) => (misfitOf(rung, off, rings) >= NO_RING ? rung.seconds : 0));
  });
}

const byCog = (rungs: readonly CogRung[], cassette: readonly number[]): CogRung[][] =>
  cassette.map((_, cog) => rungs.filter((rung) => rung.cog === cog)).filter((own) => own.length > 0);

/** By how much (log) one cog's recorded teeth are likeliest wrong, and what its rungs cost then. */
function likeliestTeeth(own: readonly CogRung[], rings: Rings): { off: number; cost: number } {
  const at = (off: number): number =>
    sum(own, (rung) => Math.min(1, rung.seconds / FULL_WEIGHT_S) * misfitOf(rung, off, rings));
  let best = { off: 0, cost: at(0) };
  for (const { onRing } of own)
    for (const level of rings.levels) {
      const off = onRing - level;
      if (Math.abs(off) > WRONG_TEETH.most) continue;
      const cost = at(off) + WRONG_TEETH.cost + (off / WRONG_TEETH.off) ** 2 / 2;
      if (cost < best.cost) best = { off, cost };
    }
  return best;
}

/** How badly a rung fits the nearest gear of its cog, or of one that the chain may have stayed on, in nats. */
function misfitOf({ cog, onRing, seconds }: CogRung, teethOff: number, { levels, cassette }: Rings): number {
  const deviation = Math.hypot(OFF.least, OFF.perRootSecond / Math.sqrt(seconds));
  const misfit = (apart: number): number => studentT4Cost(apart / deviation);
  let least = NO_RING;
  for (const level of levels) {
    least = Math.min(least, misfit(onRing - teethOff - level));
    for (let stray = -STRAY.cogs; stray <= STRAY.cogs; stray++) {
      const reached = cassette[cog + stray];
      if (reached === undefined || stray === 0) continue;
      least = Math.min(least, STRAY.cost + misfit(onRing - level - Math.log(cassette[cog] / reached)));
    }
  }
  return least;
}
