import type { SeededRandom } from '../../../src/numeric/seeded-random.ts';
import type { RideLog } from '../../../src/ride-log/ride-log.ts';
import { dropRecords } from './gear-record-edits.ts';
import { medianLogDevelopment, noRecordWithin, pedalledFirmly } from './steady-pedalling.ts';

/** A move of the chain whose command was taken out, and how long it held until the move back, taken out too. */
interface PlantedGhost {
  readonly timeS: number;
  readonly heldS: number;
}

const QUIET_S = 7;
const SHORTEST_S = 8;
const LONGEST_S = 90;
/** Share of the ratio's change that the ride must show, out and back. */
const followed = { least: 0.6, most: 1.4 };

/**
 * Takes pairs of gear records out of a ride, one that changed the cog and the next that changed it back, where speed and cadence
 * show that the chain followed both: what remains is a chain that went and came with nobody asking.
 */
export function plantGhostShifts(
  log: RideLog,
  most: number,
  random: SeededRandom,
): { log: RideLog; planted: PlantedGhost[] } {
  const { timeS, rearPosition, rearTeeth, frontPosition } = log.gearRecords;
  const able: { record: number; timeS: number; heldS: number }[] = [];
  for (let i = 1; i + 1 < timeS.length; i++) {
    const heldS = timeS[i + 1] - timeS[i];
    if (rearPosition[i] === rearPosition[i - 1] || rearPosition[i + 1] !== rearPosition[i - 1]) continue;
    if (frontPosition[i] !== frontPosition[i - 1] || frontPosition[i + 1] !== frontPosition[i]) continue;
    if (heldS < SHORTEST_S || heldS > LONGEST_S) continue;
    const [fromS, toS] = [timeS[i], timeS[i + 1]];
    if (!noRecordWithin(log.gearRecords, fromS - QUIET_S, fromS - 0.5)) continue;
    if (!noRecordWithin(log.gearRecords, toS + 0.5, toS + QUIET_S)) continue;
    if (!pedalledFirmly(log, fromS - QUIET_S, toS + QUIET_S)) continue;
    const expected = Math.log(rearTeeth[i - 1] / rearTeeth[i]);
    const during = medianLogDevelopment(log, fromS + 3.5, toS);
    const out = (during - medianLogDevelopment(log, fromS - QUIET_S, fromS)) / expected;
    const back = (during - medianLogDevelopment(log, toS + 3.5, toS + QUIET_S)) / expected;
    if (Math.min(out, back) > followed.least && Math.max(out, back) < followed.most)
      able.push({ record: i, timeS: fromS, heldS });
  }
  const chosen: typeof able = [];
  while (chosen.length < most && able.length > 0) {
    const [one] = able.splice(random.integer(able.length), 1);
    if (chosen.every((other) => Math.abs(other.record - one.record) > 2)) chosen.push(one);
  }
  const dropped = new Set(chosen.flatMap(({ record }) => [record, record + 1]));
  const planted = chosen.map(({ timeS, heldS }) => ({ timeS, heldS })).sort((a, b) => a.timeS - b.timeS);
  return { log: { ...log, gearRecords: dropRecords(log.gearRecords, dropped) }, planted };
}
