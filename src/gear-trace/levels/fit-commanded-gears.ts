import type { Bike } from '../../drivetrain/bike.ts';
import { weightedMedian } from '../../numeric/weighted-median.ts';
import type { GearModel, RatioNoise } from '../gear-model.ts';
import type { Peak } from '../samples/robust-centre.ts';
import { pedalledRings } from './pedalled-rings.ts';

/** Settled records from which on a gear's development counts. */
const MIN_RECORDS = 8;
/** Settled records of a ring or cog that must disagree with its teeth before it is corrected, and by how much (log): less is the sensors'. */
const MIN_RECORDS_TO_DISAGREE = 60;
const MIN_DISAGREEMENT = 0.018;
/**
 * Records from which on a gear's development counts no more: one that is well measured is still wrong where the chain never reached
 * the cog, and a long climb spent asking for the largest one must not outvote the others.
 */
const FULL_SAY_RECORDS = 60;

/**
 * Sets measured developments against the bike's teeth: ln development = ln rollout + ring - cog, each ring and cog with
 * a correction of its own where the ride shows one (recorded or written teeth are often wrong). A correction of a cog
 * is taken only where the ladder stays a ladder: a chain that never reaches the commanded cog makes two positions
 * measure alike, and that must not be read as a cog of another size.
 *
 * @param peaks measured log developments, index `ring * cogs + cog`
 * @returns null where no gear was pedalled for long enough to measure (`MIN_RECORDS` settled records)
 */
export function fitCommandedGears(
  peaks: readonly Peak[],
  bike: Bike,
  sensors: { readonly speedLagS: number; readonly noise: RatioNoise },
): GearModel | null {
  const { cassette, chainrings } = bike;
  const cogs = cassette.length;
  const rings = chainrings.length;
  const asked = peaks
    .map((peak, gear) => ({ ...peak, ring: Math.floor(gear / cogs), cog: gear % cogs }))
    .filter((cell) => cell.count >= MIN_RECORDS)
    .map((cell) => ({ ...cell, weight: Math.min(cell.count, FULL_SAY_RECORDS) }));
  if (asked.length === 0) return null;
  const ridden = pedalledRings(asked, bike);
  const cells = asked.map((cell, i) => ({
    ...cell,
    ring: ridden[i],
    off: cell.centre - Math.log(chainrings[ridden[i]] / cassette[cell.cog]),
  }));

  const logRollout = weightedMedian(cells.map(({ off, weight }) => ({ value: off, weight })));
  const ringOff = new Float64Array(rings);
  const cogOff = new Float64Array(cogs);
  const correct = (into: Float64Array, key: 'ring' | 'cog', other: Float64Array, otherKey: 'ring' | 'cog'): void => {
    for (let i = 0; i < into.length; i++) {
      const own = cells.filter((cell) => cell[key] === i);
      const records = own.reduce((sum, cell) => sum + cell.count, 0);
      if (records < MIN_RECORDS_TO_DISAGREE) continue;
      const off = weightedMedian(
        own.map((cell) => ({
          value: cell.off - logRollout - other[cell[otherKey]],
          weight: cell.weight,
        })),
      );
      into[i] = Math.abs(off) >= MIN_DISAGREEMENT ? off : 0;
    }
  };
  if (rings > 1) {
    correct(ringOff, 'ring', cogOff, 'cog');
    keepLadder(ringOff, chainrings, 1);
  }
  correct(cogOff, 'cog', ringOff, 'ring');
  keepLadder(cogOff, cassette, -1);

  const logDevelopment = new Float64Array(rings * cogs);
  for (let r = 0; r < rings; r++)
    for (let c = 0; c < cogs; c++)
      logDevelopment[r * cogs + c] = logRollout + Math.log(chainrings[r] / cassette[c]) + ringOff[r] + cogOff[c];
  return { rings, cogs, logDevelopment, speedLagS: sensors.speedLagS, noise: sensors.noise, logRollout };
}

/** Drops corrections that bring a ring or cog nearer to its neighbour than half the gap that the teeth give; `growth`: 1 where more teeth go further, else -1. */
function keepLadder(off: Float64Array, teeth: readonly number[], growth: 1 | -1): void {
  let broken = true;
  while (broken) {
    broken = false;
    for (let i = 0; i + 1 < teeth.length; i++) {
      const gap = Math.log(teeth[i + 1] / teeth[i]);
      if (gap + growth * (off[i + 1] - off[i]) >= gap / 2) continue;
      const worse = Math.abs(off[i]) > Math.abs(off[i + 1]) ? i : i + 1;
      if (off[worse] === 0) continue;
      off[worse] = 0;
      broken = true;
    }
  }
}
