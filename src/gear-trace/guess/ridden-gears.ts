import type { Rung } from '../ladder/ladder-peaks.ts';
import { cassetteCost, GUESSED_COGS, SIZES } from './cassette-cost.ts';
import type { RungGear } from './rung-gears.ts';

/** What a drivetrain pays for what would be odd in it, in nats (assumptions of ours). */
const COST = {
  /** Where on the cassette a ring was ridden, or that it was not. */
  range: 2.5,
  ringNotRidden: 6,
  /** A cog within that range on which this ring was not ridden, and one whose gear may hide in another's rung. */
  leftOut: 1.6,
  hidden: 0.3,
};
/** A gear this near to a rung, in log development, may hide in it. */
const HIDDEN = 0.022;

/** Weighs readings of a ladder's rungs as gears of these rings at this rollout. */
export class RiddenGears {
  /** Whether the gear of a ring and cog is near some rung, at `ring * SIZES + cog`. */
  private readonly nearRung: Uint8Array;
  /** Of the reading at hand: which cogs each ring was ridden on, at `ring * SIZES + cog`. */
  private readonly ridden: Uint8Array;

  constructor(
    rungs: readonly Rung[],
    private readonly rings: readonly number[],
    logRollout: number,
  ) {
    this.ridden = new Uint8Array(rings.length * SIZES);
    this.nearRung = Uint8Array.from({ length: rings.length * SIZES }, (_, at) => {
      const logDevelopment = Math.log(rings[Math.floor(at / SIZES)] / (at % SIZES)) + logRollout;
      return rungs.some((rung) => Math.abs(rung.logDevelopment - logDevelopment) < HIDDEN) ? 1 : 0;
    });
  }

  /** What a reading costs, in nats: its misfits and what is unusual about it; lower is likelier. One gear for each rung. */
  cost(reading: readonly RungGear[]): number {
    let cost = 0;
    this.ridden.fill(0);
    for (const { ring, cog, misfit } of reading) {
      cost += misfit;
      if (cog > 0) this.ridden[ring * SIZES + cog] = 1;
    }
    const cogs = this.cogs();
    if (cogs.length === 0) return Number.POSITIVE_INFINITY;
    cost += cassetteCost(cogs);
    for (let ring = 0; ring < this.rings.length; ring++) cost += this.rangeCost(ring, cogs);
    return cost;
  }

  /** Cogs ridden on any ring, rising. */
  private cogs(): number[] {
    const cogs: number[] = [];
    for (let cog = GUESSED_COGS.least; cog < SIZES; cog++)
      if (this.ridden[cog] || (this.rings.length > 1 && this.ridden[SIZES + cog])) cogs.push(cog);
    return cogs;
  }

  private rangeCost(ring: number, cogs: readonly number[]): number {
    let cost = 0;
    let upToLast = 0;
    let begun = false;
    for (const cog of cogs) {
      const at = ring * SIZES + cog;
      if (this.ridden[at]) {
        begun = true;
        upToLast = cost;
      } else if (begun) cost += this.nearRung[at] ? COST.hidden : COST.leftOut;
    }
    return begun ? COST.range + upToLast : COST.ringNotRidden;
  }
}

/** Cogs of a reading, rising. */
export const riddenCogs = (reading: readonly RungGear[]): number[] =>
  [...new Set(reading.flatMap(({ cog }) => (cog > 0 ? [cog] : [])))].sort((a, b) => a - b);
