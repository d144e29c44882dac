import { mean, median, range } from 'd3-array';
import type { Bike } from '../../drivetrain/bike.ts';
import type { Warning } from '../../errors/warning.ts';
import { percent } from '../../numeric/percent.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { recordedGears } from '../commands/recorded-gears.ts';
import { centreDeviation, type Peak } from '../samples/robust-centre.ts';

/** Code of the warning that the steps between a ride's gears are not those of the cogs that file and records name. */
export const otherSteps = 'cog-steps-differ';

/** Seconds of settled driving from which on a gear's development counts here. */
const LEAST_S = 20;
/** Fewer cogs than these may lie apart by chance. */
const FEWEST_COGS = 6;
/** Mean distance (log) from which on gears or the steps between them are others': those of a bike with its own cogs lie within 1 %. An assumption of ours. */
export const OTHERS = 0.014;
/** One cog counts as so far off (log) at most: further, it is that cog alone or the chain on its way. */
const MOST_APART = 0.05;
/** Mean distance of a normal distribution's values from its middle, in standard deviations. */
const MEAN_OF_NORMAL = Math.sqrt(2 / Math.PI);
/** The share of that within which those a cog from the ones asked for fit instead. */
const FITS_BETTER = 0.5;

/**
 * Says so where a ride's developments do not fit the cogs as they are named, whatever the wheel and the rings: on another cassette
 * the steps from cog to cog are others. Null where they fit, where they do a cog from the one asked for, where too few cogs were
 * ridden, and where the records name sizes that the bike has not: those are told of by themselves.
 *
 * @param peaks measured log developments, index `ring * cogs + cog`
 * @param sharedErrorS seconds that share one error of speed or cadence
 */
export function otherStepsWarning(
  { gearRecords }: Pick<RideLog, 'gearRecords'>,
  peaks: readonly Peak[],
  bike: Pick<Bike, 'chainrings' | 'cassette'>,
  sharedErrorS: number,
): Warning | null {
  if (recordedGears(gearRecords).rear.sizes.some((teeth) => !bike.cassette.includes(teeth))) return null;
  const apart = stepsApart(peaks, bike, 0);
  if (apart === null || apart < Math.hypot(OTHERS, byChance(peaks, sharedErrorS))) return null;
  if ([-1, 1].some((off) => (stepsApart(peaks, bike, off) as number) < FITS_BETTER * apart)) return null;
  return {
    code: otherSteps,
    message: `The steps between the gears that this ride shows are not those of the cogs ${bike.cassette.join('-')}, whatever the wheel: its gears lie ${percent(apart)} beside them in the mean. Its shifts are listed but not weighed.`,
  };
}

/** Mean distance (log) of the developments from their cogs' that errors of the sensors make by themselves. */
function byChance(peaks: readonly Peak[], sharedErrorS: number): number {
  const counted = peaks.filter(({ count }) => count >= LEAST_S);
  return MEAN_OF_NORMAL * (mean(counted, (peak) => centreDeviation(peak, sharedErrorS)) ?? 0);
}

/**
 * Mean distance (log) of the developments from those of the cogs, each ring by itself, if the chain stood so many cogs from the one
 * asked for; null where too few cogs were ridden.
 */
export function stepsApart(
  peaks: readonly Peak[],
  { chainrings, cassette }: Pick<Bike, 'chainrings' | 'cassette'>,
  off: number,
): number | null {
  const cogs = cassette.length;
  const rings = chainrings.map((_, ring) =>
    range(1, cogs - 1).flatMap((cog) => {
      const { centre, count } = peaks[ring * cogs + cog];
      return count < LEAST_S ? [] : [{ cog, value: centre + Math.log(cassette[cog + off]) }];
    }),
  );
  if (new Set(rings.flat().map(({ cog }) => cog)).size < FEWEST_COGS) return null;
  const distances = rings.flatMap((gears) => {
    const wheel = median(gears, ({ value }) => value) as number;
    return gears.map(({ value }) => Math.min(MOST_APART, Math.abs(value - wheel)));
  });
  return mean(distances) as number;
}
