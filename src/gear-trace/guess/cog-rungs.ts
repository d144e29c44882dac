import type { Bike } from '../../drivetrain/bike.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { gearCommands } from '../commands/gear-commands.ts';
import { GrowingHistogram } from '../ladder/development-histogram.ts';
import { ladderPeaks } from '../ladder/ladder-peaks.ts';
import { sharpestHistogram } from '../ladder/sharpest-histogram.ts';
import { logDevelopmentColumn, pedallingSamples } from '../samples/pedalling-samples.ts';
import { settledSamples } from '../samples/settled-samples.ts';

/** A development at which a recorded cog was pedalled for some time. */
export interface CogRung {
  /** Index in the cassette. */
  readonly cog: number;
  /** Log of metres a crank turn, times the cog's teeth: the same for all cogs on one ring, as far as their teeth are right. */
  readonly onRing: number;
  /** Settled pedalling about it, s. */
  readonly seconds: number;
}

/** Settled seconds that a rung needs: fewer than where the cog is not known. */
const LEAST_S = 8;
/** Less than this share of a cog's settled seconds shows no ring: on long rides freewheeling and sensors astray add up to rungs of their own. */
const LEAST_SHARE = 0.02;

/**
 * The developments at which each cog was pedalled once the chain had settled on it, whatever the ring: one ring gives every cog one,
 * two rings give two to each cog that was ridden on both. Rides are taken together.
 *
 * @param bike as the records name it, with one ring: no record of these rides names any
 */
export function cogRungs(logs: readonly RideLog[], bike: Bike): CogRung[] {
  const { cassette } = bike;
  const histograms = cassette.map(() => new GrowingHistogram());
  for (const log of logs) {
    const samples = pedallingSamples(log);
    const commands = gearCommands(log, bike, samples);
    const settled = settledSamples(log, samples, commands, { cogs: cassette.length, rings: 1 });
    const column = logDevelopmentColumn(log, samples, sharpestHistogram(log, samples).speedLagS);
    settled.forEach((records, cog) => {
      for (const i of records) histograms[cog].add(column[i], samples.dtS[i]);
    });
  }
  return histograms.flatMap((histogram, cog) =>
    ladderPeaks(histogram, LEAST_S)
      .filter(({ seconds }) => seconds > LEAST_SHARE * histogram.totalS)
      .map(({ logDevelopment, seconds }) => ({
        cog,
        onRing: logDevelopment + Math.log(cassette[cog]),
        seconds,
      })),
  );
}
