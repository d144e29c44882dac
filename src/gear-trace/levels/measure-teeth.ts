import { sum } from 'd3-array';
import type { Bike } from '../../drivetrain/bike.ts';
import { USUAL_ROLLOUT_M } from '../../drivetrain/bike-rollout.ts';
import { RING_TEETH } from '../../drivetrain/tooth-limits.ts';
import { centreDeviation, type Peak } from '../samples/robust-centre.ts';

/** Teeth of each ring and cog as the ride shows them, null where it cannot, and the rollout they go with. */
export interface MeasuredTeeth {
  readonly chainrings: readonly (number | null)[];
  readonly cassette: readonly (number | null)[];
  readonly rolloutM: number;
}

/** A peak with how far its centre may be off. */
interface MeasuredPeak extends Peak {
  readonly deviation: number;
}

/** What a ride shows that tells nothing of teeth. */
export const noTeethShown = ({ chainrings, cassette }: Bike): MeasuredTeeth => ({
  chainrings: chainrings.map(() => null),
  cassette: cassette.map(() => null),
  rolloutM: Number.NaN,
});

/** Settled seconds that a ring and a cog need to show their teeth. */
const MIN_RING_S = 60;
const MIN_COG_S = 20;
/** Rings of so many teeth more or fewer than the written one are tried. */
const RING_REACH = 8;
/** Closer to the written count than this (log), nothing speaks for another. */
const AS_WRITTEN = 0.01;
/** What a gear costs at most, in units of log likelihood: one wild gear must not decide all. */
const MOST_MISFIT = 6;
/** Residual of a well measured gear: beside noise, tyre wear and pressure move it. */
const GEAR_DEVIATION = 0.005;
/** What a tooth count that differs from the written one must earn, in units of log likelihood. */
const DIFFERENT_RING = 0.3;
/** With one ring its size and the rollout are one number, so the written ring stands unless the wheel would be odd. */
const DIFFERENT_ONLY_RING = 2;
const DIFFERENT_COG = 2;
/** Rollouts of usual wheels when the bike file names none: tyre tables span 1.96 to 2.3 m for adult bikes, taken as two deviations either side. */
const USUAL_ROLLOUT = { logM: Math.log(USUAL_ROLLOUT_M), deviation: 0.04 };
/** One ring is as often found on small wheels and on wide tyres. */
const USUAL_ROLLOUT_ONE_RING = { logM: Math.log(2.15), deviation: 0.08 };
/** A written rollout is about so far off (log): pressure, load and wear. */
const WRITTEN_ROLLOUT_DEVIATION = 0.015;
/** Rollouts tried lie this far apart (logarithm), well within `GEAR_DEVIATION`, to three standard deviations on both sides. */
const ROLLOUT_STEP = 0.0025;
const ROLLOUT_REACH = 3;

/**
 * Finds whole numbers of teeth, near the written ones, whose ratios give the measured developments. Ratios alone leave
 * the common scale open: the rollout (from the bike file, else of usual wheels) settles it, and the written teeth break ties.
 *
 * @param measured measured log developments, index `ring * cogs + cog`
 * @param writtenRolloutM rollout in metres that the bike file gives; NaN where it gives none
 * @param sharedErrorS seconds that share one error of speed or cadence
 */
export function measureTeeth(
  measured: readonly Peak[],
  bike: Bike,
  writtenRolloutM: number,
  sharedErrorS: number,
): MeasuredTeeth {
  const peaks = measured.map((peak) => ({ ...peak, deviation: centreDeviation(peak, sharedErrorS) }));
  const { chainrings, cassette } = bike;
  const seconds = chainrings.map((_, ring) => secondsOn(peaksOn(peaks, ring, cassette.length)));
  const reference = seconds.indexOf(Math.max(...seconds));
  const prior = rolloutPrior(writtenRolloutM, chainrings.length);
  const written = chainrings[reference];
  const steps = Math.floor((ROLLOUT_REACH * prior.deviation) / ROLLOUT_STEP);
  let best: { cost: number; teeth: MeasuredTeeth } | null = null;
  for (let ringTeeth = written - RING_REACH; ringTeeth <= written + RING_REACH; ringTeeth++) {
    if (ringTeeth < RING_TEETH.least || ringTeeth > RING_TEETH.most) continue;
    for (let step = -steps; step <= steps; step++) {
      const off = step * ROLLOUT_STEP;
      const tried = teethAt(peaks, bike, reference, ringTeeth, prior.logM + off);
      if (!tried) continue;
      const cost = tried.cost + (off / prior.deviation) ** 2 / 2;
      if (!best || cost < best.cost - 1e-9) best = { cost, teeth: tried.teeth };
    }
  }
  return best?.teeth ?? noTeethShown(bike);
}

/** How likely a rollout is before the ride is asked: normal about `logM`, the log of metres. */
function rolloutPrior(writtenM: number, rings: number): { readonly logM: number; readonly deviation: number } {
  if (!Number.isNaN(writtenM)) return { logM: Math.log(writtenM), deviation: WRITTEN_ROLLOUT_DEVIATION };
  return rings === 1 ? USUAL_ROLLOUT_ONE_RING : USUAL_ROLLOUT;
}

const peaksOn = (peaks: readonly MeasuredPeak[], ring: number, cogs: number): readonly MeasuredPeak[] =>
  peaks.slice(ring * cogs, (ring + 1) * cogs);

const secondsOn = (peaks: readonly Peak[]): number => sum(peaks, ({ count }) => count);

function teethAt(
  peaks: readonly MeasuredPeak[],
  bike: Bike,
  reference: number,
  ringTeeth: number,
  logRollout: number,
): { cost: number; teeth: MeasuredTeeth } | null {
  const cogs = bike.cassette.length;
  const different = bike.chainrings.length === 1 ? DIFFERENT_ONLY_RING : DIFFERENT_RING;
  let cost = ringTeeth === bike.chainrings[reference] ? 0 : different;
  const cassette = bike.cassette.map((written, cog) => {
    const peak = peaks[reference * cogs + cog];
    if (peak.count < MIN_COG_S) return null;
    const exact = ringTeeth * Math.exp(logRollout - peak.centre);
    const found = likeliestTeeth(exact, written, peak, DIFFERENT_COG);
    cost += misfit(exact, found, peak) + (found === written ? 0 : DIFFERENT_COG);
    return found;
  });
  for (let cog = 0; cog + 1 < cogs; cog++) {
    const [a, b] = [cassette[cog], cassette[cog + 1]];
    if (a !== null && b !== null && a >= b) return null;
  }
  const chainrings = bike.chainrings.map((written, ring) => {
    const own = peaksOn(peaks, ring, cogs);
    if (ring === reference) return secondsOn(own) >= MIN_RING_S ? ringTeeth : null;
    const shared = own
      .map((peak, cog) => ({ peak, teeth: cassette[cog] }))
      .filter(({ peak, teeth }) => peak.count >= MIN_COG_S && teeth !== null);
    const seconds = secondsOn(shared.map(({ peak }) => peak));
    if (seconds < MIN_RING_S) return null;
    const logTeeth = sum(
      shared,
      ({ peak, teeth }) => (peak.centre + Math.log(teeth as number) - logRollout) * peak.count,
    );
    const exact = Math.exp(logTeeth / seconds);
    const found = likeliestTeeth(exact, written, shared[0].peak, DIFFERENT_RING);
    cost += shared.length * misfit(exact, found, shared[0].peak) + (found === written ? 0 : DIFFERENT_RING);
    return found;
  });
  return { cost, teeth: { chainrings, cassette, rolloutM: Math.exp(logRollout) } };
}

/** The written count where it fits within 1 % or hardly worse than the nearest whole number, else that number. */
function likeliestTeeth(exact: number, written: number, peak: MeasuredPeak, different: number): number {
  if (Math.abs(Math.log(exact / written)) < AS_WRITTEN) return written;
  const nearest = Math.round(exact);
  return misfit(exact, written, peak) < misfit(exact, nearest, peak) + different ? written : nearest;
}

/** Half the squared distance in standard deviations, capped. */
function misfit(exact: number, found: number, peak: MeasuredPeak): number {
  const deviation = Math.hypot(GEAR_DEVIATION, peak.deviation);
  return Math.min(MOST_MISFIT, (Math.log(exact / found) / deviation) ** 2 / 2);
}
