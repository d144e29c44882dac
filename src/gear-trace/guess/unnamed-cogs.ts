import { greatest, least, median } from 'd3-array';
import { type Bike, possibleBike } from '../../drivetrain/bike.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { gearCommands } from '../commands/gear-commands.ts';
import { recordedGears } from '../commands/recorded-gears.ts';
import { GrowingHistogram } from '../ladder/development-histogram.ts';
import { ladderPeaks, type Rung } from '../ladder/ladder-peaks.ts';
import { sharpestHistogram } from '../ladder/sharpest-histogram.ts';
import { logDevelopmentColumn, pedallingSamples } from '../samples/pedalling-samples.ts';
import { settledSamples } from '../samples/settled-samples.ts';

/** Settled pedalling that a cog of its own needs, s, and its share of that under the one name. Assumptions of ours, as those below. */
const LEAST_S = 60;
const LEAST_SHARE = 0.1;
/** Neighbouring cogs lie no nearer and no further apart than this (log). */
const LEAST_STEP = 0.04;
const MOST_STEP = 0.28;

/**
 * The bike with the cogs that the records call by a neighbour's tooth count: where settled pedalling under one count shows two levels, each for
 * some time, and no other count shows the second, that is a cog of its own, its teeth by the step between the two. Positions tell such cogs
 * apart, so with them the bike stays as it is; so it does where the ring at the time is not known.
 *
 * @param bike as the records name it, with its rings
 */
export function withUnnamedCogs(bike: Bike, logs: readonly RideLog[]): Bike {
  if (logs.some(({ gearRecords }) => recordedGears(gearRecords).rear.positions.length > 0)) return bike;
  const { cassette } = bike;
  const levels = levelsByCog(logs, bike);
  const own = ownLevels(levels, cassette);
  const unnamed = levels.flatMap((rungs, cog) => {
    const pedalledS = rungs.reduce((sum, { seconds }) => sum + seconds, 0);
    return rungs
      .filter(({ seconds }) => seconds >= Math.max(LEAST_S, LEAST_SHARE * pedalledS))
      .filter(({ logDevelopment }) => isNextTo(logDevelopment, own, cog))
      .map(({ logDevelopment }) => Math.round(cassette[cog] * Math.exp(own[cog] - logDevelopment)));
  });
  if (unnamed.length === 0) return bike;
  const all = [...new Set([...cassette, ...unnamed])].sort((a, b) => a - b);
  return possibleBike({ ...bike, cassette: all }) ?? bike;
}

/** The developments at which each cog was pedalled once the chain had settled on it, the ring taken off; rides are taken together. */
function levelsByCog(logs: readonly RideLog[], bike: Bike): Rung[][] {
  const { cassette, chainrings } = bike;
  const histograms = cassette.map(() => new GrowingHistogram());
  const ringOff = chainrings.map((teeth) => Math.log(teeth / chainrings[0]));
  for (const log of logs) {
    if (log.speedSource === 'computed') continue;
    const samples = pedallingSamples(log);
    const commands = gearCommands(log, bike, samples);
    const settled = settledSamples(log, samples, commands, { cogs: cassette.length, rings: chainrings.length });
    const column = logDevelopmentColumn(log, samples, sharpestHistogram(log, samples).speedLagS);
    settled.forEach((records, gear) => {
      const ring = Math.floor(gear / cassette.length);
      for (const i of records) histograms[gear % cassette.length].add(column[i] - ringOff[ring], samples.dtS[i]);
    });
  }
  return histograms.map((histogram) => ladderPeaks(histogram));
}

/** The level of each cog itself, NaN where none shows: of several the one that fits its teeth best beside the other cogs. */
function ownLevels(levels: readonly (readonly Rung[])[], cassette: readonly number[]): number[] {
  const main = levels.map((rungs) => greatest(rungs, ({ seconds }) => seconds)?.logDevelopment ?? Number.NaN);
  const scale = median(main, (level, cog) => level + Math.log(cassette[cog])) ?? Number.NaN;
  return levels.map(
    (rungs, cog) =>
      least(rungs, ({ logDevelopment }) => Math.abs(logDevelopment - scale + Math.log(cassette[cog])))
        ?.logDevelopment ?? Number.NaN,
  );
}

/** Whether a level lies a step of the cassette from a cog's own, and neither on nor past that of another cog. */
function isNextTo(level: number, own: readonly number[], cog: number): boolean {
  const step = Math.abs(level - own[cog]);
  if (!(step > LEAST_STEP && step < MOST_STEP)) return false;
  return own.every((other, i) => {
    if (i === cog || Number.isNaN(other)) return true;
    const between = Math.sign(other - own[cog]) === Math.sign(level - own[cog]) && Math.abs(other - own[cog]) < step;
    return !between && Math.abs(level - other) > LEAST_STEP;
  });
}
