import { max } from 'd3-array';
import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { endWithin, firstWithin } from '../records-about.ts';
import { lowestLevels } from './lowest-levels.ts';
import { IDLE_W } from './rider-power.ts';
import { SLOWEST_LAG_S } from './speed-gain.ts';

/** A record this far below the gears (log), and further by so many deviations as follow, counts. */
const MIN_BELOW = 0.07;
/** How many deviations more than `MIN_BELOW` a record must lie below the gears, where the rider does nothing by the power meter, and else. */
const BELOW_DEVIATIONS = { idle: 2.5, other: 3 } as const;
/** So long a cadence may be shown after the speed it belongs to, a sensor's holding on included. */
const LATEST_CADENCE_S = 5;
/** Down to this speed a bike that stalls gives a ratio. */
const STALLED_MPS = 1;

/** Down to this speed it does where a power meter shows that the legs drove it before and do nothing now. */
const CRAWLING_MPS = 0.6;
/** At a crawl a record within this of the gear in question, log share, is on it, and so many of them are driving (assumptions of ours). */
const ON_GEAR_AT_CRAWL = 0.15;
const DRIVEN_RECORDS = 2;

/** How far each record lies below every gear in question, and from where on that counts; log development. */
export interface BelowGears {
  /**
   * The larger of the ratio with and without its lag undone is taken, unless a power meter shows that the rider does nothing. NaN
   * where there is no ratio.
   */
  depth(i: number): number;
  threshold(i: number): number;
  /** How far the record lies below the gears even at the fastest speed of some seconds about it: no lag of a sensor explains that. */
  sureDepth(i: number): number;
}

/** Measures a ride's records against the gears in question (`lowestLevels`). */
export function belowGears(log: RideLog, trace: RideTrace): BelowGears {
  const lowest = lowestLevels(log, trace);
  const isIdle = (i: number): boolean => log.powerW[i] < IDLE_W;
  const belowFastest = (i: number, leastMps: number): number => {
    const fastest = fastestAbout(log, i);
    return fastest > leastMps ? lowest[i] - Math.log((fastest * 60) / log.cadenceRpm[i]) : Number.NaN;
  };
  const sureDepth = (i: number): number => belowFastest(i, STALLED_MPS);
  /** Whether the legs drove the bike on the gear in question shortly before, by the power meter, though too slowly for a ratio of its own. */
  const droveAtCrawl = (i: number): boolean => {
    let driven = 0;
    for (let k = firstWithin(log.timeS, i, LATEST_CADENCE_S); k < i; k++) {
      const pulls = trace.samples.pedalling[k] === 1 && log.powerW[k] >= IDLE_W;
      if (pulls && Math.abs(belowFastest(k, CRAWLING_MPS)) < ON_GEAR_AT_CRAWL) driven++;
    }
    return driven >= DRIVEN_RECORDS;
  };
  const stalledDepth = (i: number): number => {
    // a speed that is missing is no wheel that stands
    if (!(log.speedMps[i] <= STALLED_MPS) || trace.samples.pedalling[i] !== 1) return Number.NaN;
    if (usableBefore(log, trace, i)) return sureDepth(i);
    return isIdle(i) && droveAtCrawl(i) ? belowFastest(i, CRAWLING_MPS) : Number.NaN;
  };
  return {
    sureDepth,
    depth(i) {
      if (!trace.samples.usable[i] || Number.isNaN(trace.logDevelopment[i])) return stalledDepth(i);
      const raw = Math.log((log.speedMps[i] * 60) / log.cadenceRpm[i]);
      return lowest[i] - (isIdle(i) ? trace.logDevelopment[i] : Math.max(trace.logDevelopment[i], raw));
    },
    threshold: (i) =>
      MIN_BELOW + (isIdle(i) ? BELOW_DEVIATIONS.idle : BELOW_DEVIATIONS.other) * (trace.deviation[i] || 0),
  };
}

/** Whether a ratio could be taken shortly before a record. */
const usableBefore = ({ timeS }: RideLog, { samples }: RideTrace, i: number): boolean =>
  samples.usable.subarray(firstWithin(timeS, i, LATEST_CADENCE_S), i).includes(1);

/** Fastest speed within the sensors' lags of a record. */
const fastestAbout = ({ timeS, speedMps }: RideLog, i: number): number =>
  max(speedMps.subarray(firstWithin(timeS, i, LATEST_CADENCE_S), endWithin(timeS, i, SLOWEST_LAG_S))) ?? 0;
