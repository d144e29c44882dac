import type { RiderActs } from './rider-senses.ts';

/** Most mean torque of a rider in the saddle and out of it, Nm; more for the first turns and on steep ground. */
const seatedNm = 62;
const standingNm = 125;
const hardBoost = 1.5;
/** Cadence at which no leg can follow any more, and how much below it the push fades. */
const lastRpm = 125;
const fadeRpm = 15;

/** Mean crank torque that a rider gives for the power wanted, Nm: limited by strength when slow, by the legs' speed when fast. */
export function pedalTorque(acts: RiderActs, drivenRps: number, speedMps: number, grade: number): number {
  const turnRadps = Math.max(1.2, 2 * Math.PI * drivenRps);
  const hard = speedMps < 2 || grade > 0.07 ? hardBoost : 1;
  const most = (acts.standing ? standingNm : seatedNm) * hard;
  const fade = Math.max(0, Math.min(1, (lastRpm - (turnRadps * 60) / (2 * Math.PI)) / fadeRpm));
  return Math.min(acts.powerW / turnRadps, most) * fade;
}
