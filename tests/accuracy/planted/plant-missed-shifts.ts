import type { SeededRandom } from '../../../src/numeric/seeded-random.ts';
import type { RideLog } from '../../../src/ride-log/ride-log.ts';
import { type AddedRecord, addRecords, usualTeeth } from './gear-record-edits.ts';
import { noRecordWithin, pedalledFirmly, recordAt } from './steady-pedalling.ts';

/** A command that the chain never followed, and the command that took it back. */
interface PlantedMiss {
  readonly timeS: number;
  readonly backS: number;
}

const QUIET_S = 8;
const APART_S = 60;
const TRIES = 40_000;

/**
 * Puts gear records into a ride that its chain never followed: one cog away, and back 8 to 20 s later, amid firm
 * pedalling with no other record within 8 s. Only the records change, so the chain stayed where it was.
 */
export function plantMissedShifts(
  log: RideLog,
  most: number,
  random: SeededRandom,
): { log: RideLog; planted: PlantedMiss[] } {
  const { gearRecords } = log;
  const teethAt = usualTeeth(gearRecords);
  const added: AddedRecord[] = [];
  const planted: PlantedMiss[] = [];
  const endS = log.timeS.at(-1) ?? 0;
  for (let n = 0; n < TRIES && planted.length < most; n++) {
    const timeS = Math.round(random.between(60, endS - 60));
    const backS = timeS + 8 + random.integer(13);
    const step = random.pick([-1, 1]);
    const like = recordAt(gearRecords.timeS, timeS) - 1;
    if (like < 0 || planted.some((other) => Math.abs(other.timeS - timeS) < APART_S)) continue;
    const position = gearRecords.rearPosition[like];
    const teeth = teethAt.get(position + step);
    if (position === 0 || teeth === undefined) continue;
    if (!noRecordWithin(gearRecords, timeS - QUIET_S, backS + QUIET_S)) continue;
    if (!pedalledFirmly(log, timeS - QUIET_S, backS + QUIET_S)) continue;
    planted.push({ timeS, backS });
    added.push(
      { timeS, like, rearPosition: position + step, rearTeeth: teeth },
      { timeS: backS, like, rearPosition: position, rearTeeth: gearRecords.rearTeeth[like] },
    );
  }
  planted.sort((a, b) => a.timeS - b.timeS);
  return { log: { ...log, gearRecords: addRecords(gearRecords, added) }, planted };
}
