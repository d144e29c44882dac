import type { Bike } from '../../src/drivetrain/bike.ts';
import { guessDrivetrain } from '../../src/gear-trace/guess/guess-drivetrain.ts';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { withoutRecords } from './without-records.ts';

/** How well a drivetrain was guessed from a ride without its gear records. Ratios leave the scale open: 36 x 12 is 30 x 10. */
export interface LadderScore {
  readonly guess: string;
  readonly certainty: number;
  /** As many rings as were ridden, two in the right proportion. */
  readonly ringsRight: boolean;
  /** The same with all cogs it says are shown, and nearly all of the riding in gears it has: right up to a scale. */
  readonly right: boolean;
}

/** A gear ridden for less is not asked for, s; a ring ridden for a smaller share of the time may go unseen. */
const RIDDEN_S = 60;
const RING_RIDDEN = 0.05;
/** Two gears are the same within this, in log ratio; so are two proportions of rings, and cogs that differ by less. */
const SAME_GEAR = 0.013;
const SAME_RINGS = 0.025;
const SAME_COG = 0.02;
const IN_GEAR = 0.9;
const SCALES = { reach: 0.6, step: 0.002 };

interface RiddenGear {
  readonly ring: number;
  readonly cog: number;
  readonly seconds: number;
}

/** Guesses the drivetrain without the ride's gear records and sets it against the gears that the trace shows with them. */
export function scoreLadder(log: RideLog, bike: Bike): LadderScore {
  const { bike: guessed, certainty, madeUpCogs } = guessDrivetrain([withoutRecords(log)]);
  const shown = guessed.cassette.filter((teeth) => !madeUpCogs.includes(teeth));
  const guess = `${guessed.chainrings.join('/')} x ${shown.join('-') || 'nothing'}`;
  const ridden = riddenGears(log, bike);
  const rings = ringsMeant(ridden, bike, guessed.chainrings.length);
  const proportion = (of: readonly number[]): number => Math.log((of.at(-1) as number) / of[0]);
  const ringsRight =
    certainty > 0 &&
    guessed.chainrings.length === rings.length &&
    Math.abs(proportion(guessed.chainrings) - proportion(rings)) < SAME_RINGS;
  if (!ringsRight) return { guess, certainty, ringsRight, right: false };
  const { scale, share } = bestScale(
    ridden.filter(({ seconds }) => seconds >= RIDDEN_S),
    guessed.chainrings.flatMap((ring) => shown.map((cog) => Math.log(ring / cog))),
  );
  const toothScale = Math.log((guessed.chainrings.at(-1) as number) / (rings.at(-1) as number)) - scale;
  const wrong = shown.filter((cog) =>
    bike.cassette.every((teeth) => Math.abs(Math.log(cog / teeth) - toothScale) > SAME_COG),
  );
  return { guess, certainty, ringsRight, right: share > IN_GEAR && wrong.length === 0 };
}

function riddenGears(log: RideLog, bike: Bike): RiddenGear[] {
  const { cog, ring, samples } = traceGears(log, bike);
  const seconds = new Float64Array(bike.chainrings.length * bike.cassette.length);
  for (let i = 0; i < cog.length; i++)
    if (cog[i] >= 0 && samples.usable[i])
      seconds[Math.max(0, ring[i]) * bike.cassette.length + cog[i]] += samples.dtS[i];
  return Array.from(seconds, (time, gear) => ({
    ring: bike.chainrings[Math.floor(gear / bike.cassette.length)],
    cog: bike.cassette[gear % bike.cassette.length],
    seconds: time,
  })).filter((gear) => gear.seconds > 0);
}

/** Rings that a guess must have: those ridden for some time; a ring ridden for a moment may be found or not. */
function ringsMeant(ridden: readonly RiddenGear[], { chainrings }: Bike, guessedRings: number): number[] {
  const total = ridden.reduce((sum, { seconds }) => sum + seconds, 0);
  const share = (teeth: number): number =>
    ridden.reduce((sum, { ring, seconds }) => sum + (ring === teeth ? seconds : 0), 0) / total;
  const used = chainrings.filter((ring) => share(ring) > RING_RIDDEN);
  const touched = chainrings.filter((ring) => share(ring) > 0);
  return touched.length === guessedRings ? touched : used;
}

/** The scale at which the riding lies nearest to gears of the guess, and the share of it that then is in one. */
function bestScale(ridden: readonly RiddenGear[], guessedRatios: readonly number[]) {
  const total = ridden.reduce((sum, { seconds }) => sum + seconds, 0);
  let best = { scale: 0, nearness: -1, share: 0 };
  for (let scale = -SCALES.reach; scale <= SCALES.reach; scale += SCALES.step) {
    let [nearness, share] = [0, 0];
    for (const { ring, cog, seconds } of ridden) {
      const off = Math.min(...guessedRatios.map((ratio) => Math.abs(ratio - scale - Math.log(ring / cog))));
      if (off >= SAME_GEAR) continue;
      nearness += (seconds / total) * (1 - (off / SAME_GEAR) ** 2);
      share += seconds / total;
    }
    if (nearness > best.nearness) best = { scale, nearness, share };
  }
  return best;
}
