import { median, sum } from 'd3-array';
import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import { allPedalledSeconds } from '../../gear-trace/samples/pedalled-seconds.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { crankTorque } from '../crank-torque.ts';
import type { SkipEvent } from '../ride-events.ts';
import { MIN_DEVIATIONS, ON_COG_DEVIATIONS } from './dip-runs.ts';
import { type SkipDip, skipDips } from './skip-dips.ts';

/**
 * Torque at the crank about a skip, Nm, at the least where power is known: a chain slips under load, and this is about 80 W at 80 rpm,
 * softer than most riding, so hardly any pull lies on the chain below it (assumption of ours).
 */
const LEAST_NM = 10;
/** Torque beyond easy riding, Nm (assumption of ours). */
const HARD_NM = 30;
/** Without gear records and without a hard push: so short and so deep a dip is no shift there and back, and no reading gone wrong. */
const CLEAR = { records: 2, dip: 0.15, deviations: 9 } as const;
/** A dip within so many deviations of the step to the next larger cog may be a hop there and back. */
const HOP_DEVIATIONS = 2.5;
/** A dip as deep as this is a skip by 63 % (assumption of ours). */
const CONFIDENT_DEVIATIONS = 6;

/**
 * What a dip of the ratio may be: surely a skip; a skip or, cut short by its records, a hop to the next larger cog and back; either of
 * them; too shallow for a hop, or hardly more than the noise, with a power that sags; hardly more than the noise; a shift.
 */
type Meaning = 'skip' | 'off-step' | 'skip-or-hop' | 'unloaded' | 'faint' | 'shift';

/** How much each shows that teeth are worn, and how much of that in an hour of pedalling, the first of which counts whole, is enough. Assumptions of ours. */
const SHOWS_WEAR: Readonly<Record<Meaning, number>> = {
  skip: 1,
  'off-step': 0.25,
  unloaded: 1.5,
  faint: 0.25,
  'skip-or-hop': 0,
  shift: 0,
};
const SHOWN_AN_HOUR = 1;

/**
 * Finds skips among the moments at which the cranks run ahead of the wheel for under 2 s, with load on the chain where power is known. Riders often answer by shifting. A dip that
 * a hop to the next larger cog could have made counts only under more than the ride's usual load and away from shifts (a chain on its way may hop as well), or in a ride in which dips occur that
 * no hop explains: worn teeth slip time and again.
 */
export function skips(log: RideLog, trace: RideTrace, sensorLagS: number): SkipEvent[] {
  const lagS = Math.max(0, sensorLagS);
  const usualNm = median(usualTorques(log)) ?? Number.NaN;
  const dips = skipDips(log, trace, lagS)
    .filter(({ torqueNm }) => !(torqueNm < LEAST_NM))
    .map((dip) => ({ dip, meaning: meaningOf(dip, trace, usualNm) }));
  const isWorn = showsWear(
    dips.map(({ meaning }) => meaning),
    trace,
  );
  return dips
    .filter(({ meaning }) => meaning === 'skip' || (isWorn && meaning !== 'shift'))
    .map(({ dip: { start, cog, depth, deviation, torqueNm } }) => ({
      timeS: Math.max(0, log.timeS[start] - lagS),
      cog,
      confidence: 1 - Math.exp(-depth / deviation / CONFIDENT_DEVIATIONS),
      leap: depth,
      torqueNm,
    }));
}

function meaningOf(dip: SkipDip, trace: RideTrace, usualNm: number): Meaning {
  const recorded = trace.commands.timeS.length > 0;
  if (restsOnCog(dip, trace, recorded)) return 'shift';
  const beyondStep = deviationsBeyondStep(dip);
  const noHop = beyondStep >= HOP_DEVIATIONS || (dip.torqueNm > usualNm && !dip.besideShift);
  return recorded ? meaningWithRecords(dip, beyondStep, noHop) : meaningWithoutRecords(dip, noHop);
}

/** How much deeper a dip is than the step to the next larger cog, in deviations; infinite on the largest. */
const deviationsBeyondStep = ({ depth, deviation, toLarger }: SkipDip): number =>
  toLarger === null ? Number.POSITIVE_INFINITY : (depth - toLarger) / deviation;

const isFaint = ({ depth, deviation }: SkipDip): boolean => depth < MIN_DEVIATIONS.clear * deviation;

/** With gear records no shift was asked for about a dip, so it is a skip, a hop, or noise. */
function meaningWithRecords(dip: SkipDip, beyondStep: number, noHop: boolean): Meaning {
  if (isFaint(dip)) return dip.unloaded ? 'unloaded' : 'faint';
  if (noHop) return 'skip';
  if (beyondStep >= -HOP_DEVIATIONS) return 'skip-or-hop';
  return dip.unloaded ? 'unloaded' : 'off-step';
}

/** Without gear records a quick shift there and back looks much the same as a skip. */
function meaningWithoutRecords(dip: SkipDip, noHop: boolean): Meaning {
  if (isFaint(dip)) return 'shift';
  const { start, end, depth, deviation, torqueNm } = dip;
  const clear = end - start <= CLEAR.records && depth > CLEAR.dip && depth > CLEAR.deviations * deviation;
  return noHop && (torqueNm > HARD_NM || clear) ? 'skip' : 'shift';
}

/** Whether a ride's dips that no hop explains are as frequent as worn teeth make them. */
function showsWear(meanings: readonly Meaning[], { samples }: RideTrace): boolean {
  const pedalledH = allPedalledSeconds(samples) / 3600;
  const shown = sum(meanings, (meaning) => SHOWS_WEAR[meaning]);
  return shown >= SHOWN_AN_HOUR * Math.max(1, pedalledH);
}

/**
 * Whether all records of a run but one drive on one other cog: then the chain went there and came back. No cog but the next larger
 * one is within its reach unasked; without gear records the rider may have asked for any.
 */
function restsOnCog({ start, end, deepest, cog }: SkipDip, trace: RideTrace, recorded: boolean): boolean {
  const { model } = trace;
  if (!model || end - start < 2) return false;
  const { logDevelopment, cogs } = model;
  const next = trace.ring[start - 1] * cogs + cog + 1;
  const levels = recorded ? (cog + 1 < cogs ? [logDevelopment[next]] : []) : [...logDevelopment];
  return levels.some((level) => {
    const isOn = (i: number): boolean =>
      Math.abs(trace.logDevelopment[i] - level) < ON_COG_DEVIATIONS * trace.deviation[i];
    let on = 0;
    for (let i = start; i < end; i++) if (isOn(i)) on++;
    // the record of the way there or back lies between the cogs
    return isOn(deepest) && on >= Math.max(1, end - start - 1);
  });
}

/** Torque of every record under way, Nm. */
function usualTorques(log: RideLog): Float64Array {
  return Float64Array.from(log.timeS, (_, i) => crankTorque(log, i, i + 1)).filter((torqueNm) => torqueNm > 0);
}
