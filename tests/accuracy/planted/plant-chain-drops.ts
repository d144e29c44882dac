import type { SeededRandom } from '../../../src/numeric/seeded-random.ts';
import type { RideLog } from '../../../src/ride-log/ride-log.ts';
import { noRecordWithin, pedalledFirmly, recordAt } from './steady-pedalling.ts';

/** Drive lost at a moment. `side` is known where the derailleur stood at an end cog that it had just been sent to, else null. */
interface PlantedDrop {
  readonly timeS: number;
  readonly side: 'past-largest' | 'past-smallest' | null;
  readonly stops: boolean;
}

const QUIET_S = 6;
/** Seconds of the ride that are written over: legs spinning, rolling out, setting off again. */
const OVER_S = 26;
const APART_S = 90;
const TRIES = 60_000;
const RAMP_S = 8;

/**
 * Takes the drive out of a ride for some seconds amid firm pedalling: the cadence runs up by a fifth to a half, power is gone and the
 * speed sinks as a bike coasts. Then the rider either brakes to a halt, stands a while (the clock stops) and sets off again, or
 * rolls on until the chain has caught. Half of the drops come 2 s after a command to an end cog, as far as the ride has such.
 */
export function plantChainDrops(
  log: RideLog,
  most: number,
  random: SeededRandom,
): { log: RideLog; planted: PlantedDrop[] } {
  const { gearRecords } = log;
  const positions = [...gearRecords.rearPosition].filter((position) => position > 0);
  const smallestCog = positions.reduce((a, b) => Math.max(a, b));
  const largestCog = positions.reduce((a, b) => Math.min(a, b));
  const atEnd = [...gearRecords.timeS.keys()].filter(
    (i) =>
      i > 0 &&
      gearRecords.rearPosition[i] !== gearRecords.rearPosition[i - 1] &&
      [smallestCog, largestCog].includes(gearRecords.rearPosition[i]),
  );
  const chosen: { at: number; side: PlantedDrop['side'] }[] = [];
  const choose = (at: number, sinceCommandS: number, side: PlantedDrop['side']): void => {
    if (chosen.some((other) => Math.abs(log.timeS[other.at] - log.timeS[at]) < APART_S)) return;
    const dropS = log.timeS[at];
    if (!noRecordWithin(gearRecords, dropS - sinceCommandS + 0.5, dropS + OVER_S + QUIET_S)) return;
    if (pedalledFirmly(log, dropS - QUIET_S, dropS + OVER_S)) chosen.push({ at, side });
  };
  while (chosen.length < most / 2 && atEnd.length > 0) {
    const [record] = atEnd.splice(random.integer(atEnd.length), 1);
    const side = gearRecords.rearPosition[record] === largestCog ? 'past-largest' : 'past-smallest';
    choose(recordAt(log.timeS, gearRecords.timeS[record] + 2), 2, side);
  }
  for (let n = 0; n < TRIES && chosen.length < most; n++) {
    const at = random.integer(log.timeS.length - 100);
    choose(at, QUIET_S + 0.5, null);
  }
  chosen.sort((a, b) => a.at - b.at);
  let planted: PlantedDrop[] = [];
  let changed = log;
  // from the last to the first, so that a halt moves nothing that is still to be planted
  for (const { at, side } of [...chosen].reverse()) {
    const stops = random.chance(0.6);
    const { log: next, haltS } = loseDrive(changed, at, stops, random);
    changed = next;
    planted = [{ timeS: log.timeS[at], side, stops }, ...planted.map((p) => ({ ...p, timeS: p.timeS + haltS }))];
  }
  return { log: changed, planted };
}

function loseDrive(log: RideLog, at: number, stops: boolean, random: SeededRandom): { log: RideLog; haltS: number } {
  const speedMps = log.speedMps.slice();
  const cadenceRpm = log.cadenceRpm.slice();
  const powerW = log.powerW.slice();
  const spinS = 2 + random.integer(4);
  const spun = Math.min(150, log.cadenceRpm[at - 1] * random.between(1.2, 1.5));
  let speed = log.speedMps[at - 1];
  let i = at;
  const put = (mps: number, rpm: number): void => {
    speedMps[i] = Math.max(0, mps);
    cadenceRpm[i] = Math.round(rpm);
    powerW[i] = 0;
    i++;
  };
  // a freely rolling bike: a fixed rolling resistance and air that grows with the square of speed
  const coast = (): number => {
    speed -= 0.05 + 0.003 * speed * speed;
    return speed;
  };
  for (let s = 0; s < spinS; s++) put(coast(), s === 0 ? (log.cadenceRpm[at - 1] + spun) / 2 : spun);
  const rollS = stops ? 0 : 2 + random.integer(4);
  for (let s = 0; s < rollS; s++) put(coast(), s === 0 ? 20 : 0);
  while (stops && speed > 1.5 && i < at + OVER_S - RAMP_S) {
    speed -= 1.6;
    put(speed, 0);
  }
  const resume = i;
  // setting off: the ratio of the real seconds is kept, speed and cadence rise together
  const from = stops ? 0.2 : Math.max(0.3, speed / log.speedMps[resume]);
  for (; i < resume + RAMP_S; i++) {
    const share = from + ((1 - from) * (i - resume + 1)) / RAMP_S;
    speedMps[i] = log.speedMps[i] * share;
    cadenceRpm[i] = Math.round(log.cadenceRpm[i] * share);
  }
  const haltS = stops ? 30 + random.integer(60) : 0;
  const later = (timeS: number): number => (timeS >= log.timeS[resume] ? timeS + haltS : timeS);
  return {
    haltS,
    log: {
      ...log,
      speedMps,
      cadenceRpm,
      powerW,
      timeS: log.timeS.map(later),
      gearRecords: { ...log.gearRecords, timeS: log.gearRecords.timeS.map(later) },
      pauses: log.pauses?.map(({ startS, endS }) => ({ startS: later(startS), endS: later(endS) })),
    },
  };
}
