import type { RiderActs } from './rider-senses.ts';

/** Most mean torque of a rider in the saddle and out of it, Nm; more for the first turns and on steep ground. */
const SEATED_NM = 62;
const STANDING_NM = 125;
const HARD_BOOST = 1.5;
/** Cadence at which no leg can follow any more, and how much below it the push fades. */
const LAST_RPM = 125;
const FADE_RPM = 15;

/** Mean crank torque that a rider gives for the power wanted, Nm: limited by strength when slow, by the legs' speed when fast. */
export function pedalTorque(acts: RiderActs, drivenRps: number, speedMps: number, grade: number): number {
  const turnRadps = Math.max(1.2, 2 * Math.PI * drivenRps);
  const hard = speedMps < 2 || grade > 0.07 ? HARD_BOOST : 1;
  const most = (acts.standing ? STANDING_NM : SEATED_NM) * hard;
  const fade = Math.max(0, Math.min(1, (LAST_RPM - (turnRadps * 60) / (2 * Math.PI)) / FADE_RPM));
  return Math.min(acts.powerW / turnRadps, most) * fade;
}
