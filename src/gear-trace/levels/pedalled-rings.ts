import type { Bike } from '../../drivetrain/bike.ts';
import { bikeRolloutMm, USUAL_ROLLOUT_M } from '../../drivetrain/bike-rollout.ts';

/** The development measured while a gear was asked for. */
export interface AskedGear {
  readonly ring: number;
  readonly cog: number;
  /** Log of metres a crank turn. */
  readonly centre: number;
  readonly weight: number;
}

/** Written teeth are off by about this much where they are off, as log. Assumption of ours. */
const TEETH_OFF = 0.06;
/** What a gear says that fits on another ring than the recorded one only, against one that fits on its own: a change of ring is seldom lost. */
const OTHER_RING = 0.45;
/** The same for all gears together where they need a rollout this far (log) from the written one, else from a usual wheel's: a speed seldom is so wrong. */
const ODD_ROLLOUT = 0.6;
const ROLLOUT_REACH = 0.12;

/**
 * On which ring each gear was pedalled. Recorders lose a change of ring, and then name the old one for as long as it lasts: such gears
 * fit the bike's teeth on another ring than the recorded one. Of all scales that bring some gear onto its ring the one is taken on which most
 * gears fit, on the recorded ring rather than on another. Of one ring there is no doubt.
 *
 * @returns index of the ring, by gear
 */
export function pedalledRings(gears: readonly AskedGear[], bike: Bike): number[] {
  const { chainrings, cassette } = bike;
  if (chainrings.length === 1 || gears.length === 0) return gears.map(({ ring }) => ring);
  const writtenM = bikeRolloutMm(bike) / 1000;
  const usual = Math.log(Number.isNaN(writtenM) ? USUAL_ROLLOUT_M : writtenM);
  const logRings = chainrings.map(Math.log);
  const onRing = gears.map(({ centre, cog }) => centre + Math.log(cassette[cog]));
  const agreement = (gear: number, ring: number, scale: number): number =>
    Math.exp(-(((onRing[gear] - logRings[ring] - scale) / TEETH_OFF) ** 2) / 2) *
    (ring === gears[gear].ring ? 1 : OTHER_RING);
  const bestRing = (gear: number, scale: number): number =>
    logRings.reduce(
      (best, _, ring) => (agreement(gear, ring, scale) > agreement(gear, best, scale) ? ring : best),
      gears[gear].ring,
    );
  const score = (scale: number): number =>
    gears.reduce((sum, { weight }, gear) => sum + weight * agreement(gear, bestRing(gear, scale), scale), 0) *
    (Math.abs(scale - usual) > ROLLOUT_REACH ? ODD_ROLLOUT : 1);
  let scale = Number.NaN;
  let most = -1;
  for (const on of onRing)
    for (const logRing of logRings) {
      const tried = score(on - logRing);
      if (tried > most) {
        most = tried;
        scale = on - logRing;
      }
    }
  return gears.map((_, gear) => bestRing(gear, scale));
}
