import { logSumExp } from '../../numeric/log-sum-exp.ts';
import { logistic } from '../../numeric/logistic.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';

/** Cadences that tell: a turn lasts from just over a second to two, so a magnet leaves out some seconds and never two on end, rpm. */
const TELLING_RPM = { from: 30, to: 57 };
/** A cadence that leaps by more is the legs' or the sensor's own doing, rpm. */
const MOST_RPM = 12;
/** Share of pairs of seconds that follow neither reading (assumption: a reading made of several turns, a value that sinks while none comes). */
const ASTRAY = 0.1;
/** As many pairs count in full; of more, all count less: what makes one of them astray goes on through the ride. */
const PAIRS_THAT_COUNT = 60;
/** How likely a turn shows another whole cadence than the turn before (magnet), or a second another than the second before (no magnet). */
const CHANGES_A_TURN = Array.from({ length: 10 }, (_, i) => 0.525 + 0.05 * i);
const CHANGES_A_SECOND = Array.from({ length: 19 }, (_, i) => 0.075 + 0.05 * i);

/** One record's cadence, the next and the one after, a second apart each: how long a turn lasts in s, and in how many of the two seconds the cadence changed. */
interface PairOfSeconds {
  readonly turnS: number;
  readonly changes: 0 | 1 | 2;
}

/**
 * How likely a ride's cadence comes from a magnet that passes once a turn, 0 to 1, a half where nothing tells. Such a sensor has news once a
 * turn: at 40 turns a minute it changes in two seconds of three and never in three on end. Others have news in every second.
 */
export function magnetChance(log: Pick<RideLog, 'timeS' | 'cadenceRpm'>): number {
  const pairs = pairsOfSeconds(log);
  const magnet = CHANGES_A_TURN.map((share) => sum(pairs, (pair) => ifMagnet(pair, share)));
  const steady = CHANGES_A_SECOND.map((share) => sum(pairs, (pair) => ifNews(pair.changes, share)));
  const logOdds = logSumExp(magnet) - Math.log(magnet.length) - logSumExp(steady) + Math.log(steady.length);
  return logistic(logOdds * Math.min(1, PAIRS_THAT_COUNT / Math.max(1, pairs.length)));
}

const sum = (pairs: readonly PairOfSeconds[], chance: (pair: PairOfSeconds) => number): number =>
  pairs.reduce((total, pair) => total + Math.log((1 - ASTRAY) * chance(pair) + ASTRAY / 3), 0);

/** Two seconds hold one pass of the magnet or two, and twice a second's share of a turn on the average. */
function ifMagnet({ turnS, changes }: PairOfSeconds, share: number): number {
  const two = 2 / turnS - 1;
  return (1 - two) * [1 - share, share, 0][changes] + two * ifNews(changes, share);
}

const ifNews = (changes: 0 | 1 | 2, share: number): number =>
  [(1 - share) ** 2, 2 * share * (1 - share), share ** 2][changes];

function pairsOfSeconds({ timeS, cadenceRpm }: Pick<RideLog, 'timeS' | 'cadenceRpm'>): PairOfSeconds[] {
  const pairs: PairOfSeconds[] = [];
  for (let i = 2; i < timeS.length; i++) {
    const [a, b, c] = cadenceRpm.subarray(i - 2, i + 1);
    const rpm = (a + b + c) / 3;
    const eachSecond = timeS[i] - timeS[i - 1] === 1 && timeS[i - 1] - timeS[i - 2] === 1;
    const even = Math.abs(a - b) < MOST_RPM && Math.abs(b - c) < MOST_RPM && Math.min(a, b, c) > 0;
    if (!eachSecond || !even || rpm < TELLING_RPM.from || rpm > TELLING_RPM.to) continue;
    pairs.push({ turnS: 60 / rpm, changes: (Number(a !== b) + Number(b !== c)) as 0 | 1 | 2 });
    i++;
  }
  return pairs;
}
