import type { RideLog } from '../../ride-log/ride-log.ts';

const header = 'time,speed_mps,cadence_rpm,power_w,distance_m,front_teeth,rear_teeth';
const number = (value: number, digits: number): string => (Number.isNaN(value) ? '' : value.toFixed(digits));
const teeth = (value: number): string => (value === 0 ? '' : String(value));

/** A ride as CSV. A gear change stands in the row of its second; one at an exact time, or in a pause, in a row of its own. */
export function csvBytes(log: RideLog): Uint8Array {
  const { gearRecords: gears } = log;
  const rows = [header];
  const time = (timeS: number): string => new Date(log.startMs + Math.round(timeS * 1000)).toISOString();
  let gear = 0;
  for (let i = 0; i < log.timeS.length; i++) {
    while (gear < gears.timeS.length && gears.timeS[gear] < log.timeS[i]) {
      const last = gear + 1 >= gears.timeS.length || gears.timeS[gear + 1] !== gears.timeS[gear];
      if (last)
        rows.push(`${time(gears.timeS[gear])},,,,,${teeth(gears.frontTeeth[gear])},${teeth(gears.rearTeeth[gear])}`);
      gear++;
    }
    let front = '';
    let rear = '';
    for (; gear < gears.timeS.length && gears.timeS[gear] === log.timeS[i]; gear++) {
      front = teeth(gears.frontTeeth[gear]);
      rear = teeth(gears.rearTeeth[gear]);
    }
    rows.push(
      [
        time(log.timeS[i]),
        number(log.speedMps[i], 3),
        number(log.cadenceRpm[i], 0),
        number(log.powerW[i], 0),
        number(log.distanceM[i], 2),
        front,
        rear,
      ].join(','),
    );
  }
  return new TextEncoder().encode(`${rows.join('\n')}\n`);
}
