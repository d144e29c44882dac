import type { Cause } from '../../src/diagnosis/causes.ts';
import type { DiagnosisRide } from '../../src/diagnosis/diagnosis.ts';
import { type SeededRandom, seededRandom } from '../../src/numeric/seeded-random.ts';
import type {
  ChainDropEvent,
  GhostShiftEvent,
  Outcome,
  RideEvents,
  ShiftEvent,
  SkipEvent,
} from '../../src/shifts/ride-events.ts';
import { madeShift } from '../cogs/made-shift.ts';

/**
 * Makes events straight away, with no ride and no trace, by rules that share nothing with the diagnosis: three families
 * that a builder of simulators might choose. Sizes are invented; only directions are trade knowledge.
 *
 * `gates`: a shift with a lateral error beyond a hard threshold misses each gate of the cog with a fixed chance.
 * `table`: every cause has a fixed rate for each direction and place, each cog its own random factor.
 * `linear`: trouble rises in a straight line with the error in mm, and the parts of a fault are coarser.
 */
export const families = ['gates', 'table', 'linear'] as const;
type Family = (typeof families)[number];

export interface GeneratorOptions {
  readonly cause: Cause;
  readonly family: Family;
  readonly severity: 'mild' | 'severe';
  readonly rides: number;
  readonly seed: number;
  readonly shiftsPerRide?: number;
  readonly cogs?: number;
  /** Index of the ride with which the fault begins. */
  readonly faultFromRide?: number;
  /** Index of the ride from which on it is cured. */
  readonly curedFromRide?: number;
  /** Millimetres added to the index offset from each ride on, for adjustments between rides. */
  readonly offsetMmByRide?: readonly number[];
  /** Trouble for the rider's own reasons at the highest torque. */
  readonly riderTrouble?: number;
  /** Share of clean shifts read as late by the detection; a third of it as missed. */
  readonly detectionNoise?: number;
  readonly power?: boolean;
  /** One ride made of these moves instead of the rider's own. */
  readonly planned?: {
    readonly ride: number;
    readonly moves: readonly { readonly fromCog: number; readonly toCog: number; readonly firm: boolean }[];
  };
  /** One ride with this many shifts, exactly. */
  readonly shiftsOnRide?: { readonly ride: number; readonly shifts: number };
}

interface Bike {
  readonly cause: Cause;
  readonly severe: boolean;
  readonly family: Family;
  readonly cogs: number;
  readonly random: SeededRandom;
  readonly tiltSign: number;
  readonly pivot: number;
  readonly size: number;
  readonly cogFactor: number[];
  readonly directionFactor: number;
}

interface Chances {
  late: number;
  missed: number;
  overshot: number;
}

/** Lateral error in mm, inboard positive, by plain rules. */
function errorMm(bike: Bike, cog: number, larger: boolean, addedMm: number): number {
  const { cause, size, cogs } = bike;
  let error = addedMm;
  if (cause === 'cable-tension-low') error -= size;
  if (cause === 'cable-tension-high') error += size;
  if (cause === 'hanger-bent') error += bike.tiltSign * 1.5 * size * (cog / (cogs - 1) - bike.pivot) * 2;
  if (cause === 'cable-friction') error += larger ? -0.35 * size : 1.1 * size;
  if (cause === 'low-limit-tight' && cog === cogs - 1) error -= 1.4 * size;
  if (cause === 'high-limit-tight' && cog === 0) error += 1.4 * size;
  if (cog === 0 && cause !== 'high-limit-loose') error = Math.max(error, -0.4);
  if (cog === cogs - 1 && cause !== 'low-limit-loose') error = Math.min(error, 0.4);
  return error;
}

function gateChances(bike: Bike, cog: number, larger: boolean, hard: number, addedMm: number): Chances {
  const random = bike.random;
  const error = errorMm(bike, cog, larger, addedMm) + 0.16 * random.normal();
  const short = (larger ? -error : error) + 0.12 * Math.max(0, hard);
  let missOne = short > 0.5 ? Math.min(0.93, 0.55 + 0.3 * (short - 0.5)) : 0.02;
  if (bike.cause === 'pulley-gap-large') missOne = Math.max(missOne, bike.severe ? 0.55 : 0.42);
  if (bike.cause === 'pulley-gap-small' && larger && cog >= bike.cogs - 3)
    missOne = Math.max(missOne, bike.severe ? 0.72 : 0.5);
  const gatesToLate = 3;
  const gatesToMiss = 9;
  const late = missOne ** gatesToLate;
  const missed = missOne ** gatesToMiss;
  return { late: late - missed, missed, overshot: -short > 1.3 ? 0.3 : 0 };
}

function tableChances(bike: Bike, cog: number, larger: boolean, hard: number, addedMm: number): Chances {
  const { cause, severe, cogs } = bike;
  const share = cog / (cogs - 1);
  const base = severe ? 0.4 : 0.13;
  let late = 0;
  let missed = 0;
  let overshot = 0;
  const add = (rate: number, missedPart: number): void => {
    late += rate * (1 - missedPart);
    missed += rate * missedPart;
  };
  if (cause === 'cable-tension-low' && larger) add(base, 0.4);
  if (cause === 'cable-tension-high' && !larger) add(base, 0.4);
  if (cause === 'cable-tension-high' && larger && severe) overshot += 0.05;
  if (cause === 'low-limit-tight' && larger && cog === cogs - 1) add(severe ? 0.8 : 0.4, 0.8);
  if (cause === 'high-limit-tight' && !larger && cog === 0) add(severe ? 0.8 : 0.4, 0.7);
  if (cause === 'pulley-gap-small' && share > 0.7) add(larger ? base : base * 0.25, 0.2);
  if (cause === 'pulley-gap-large') add(base * 0.7, 0.08);
  if (cause === 'cable-friction') add(larger ? base * 0.35 : base, 0.3);
  if (cause === 'hanger-bent') {
    const lean = bike.tiltSign * 2 * (share - bike.pivot) * (larger ? -1 : 1);
    if (lean > 0.1) add(base * 1.6 * lean, 0.4);
  }
  if (addedMm !== 0) add(Math.min(0.5, 0.5 * Math.max(0, (larger ? -addedMm : addedMm) - 0.3)), 0.4);
  const factor = bike.cogFactor[cog] * Math.exp(0.25 * hard);
  const total = Math.min(0.95, (late + missed) * factor);
  const scale = late + missed > 0 ? total / (late + missed) : 0;
  return { late: late * scale + 0.004, missed: missed * scale + 0.002, overshot };
}

function linearChances(bike: Bike, cog: number, larger: boolean, hard: number, addedMm: number): Chances {
  const error = errorMm(bike, cog, larger, addedMm);
  const short = larger ? -error : error;
  let trouble = Math.max(0, short - 0.25) * 0.55 * (1 + 0.3 * hard) + 0.008;
  if (bike.cause === 'pulley-gap-small' && cog >= bike.cogs - 4) trouble += (larger ? 1 : 0.35) * bike.size * 0.4;
  if (bike.cause === 'pulley-gap-large') trouble += bike.size * 0.28 * (1.2 - 0.4 * (cog / (bike.cogs - 1)));
  trouble = Math.min(0.92, Math.max(0, trouble));
  const missedPart = bike.cause.startsWith('pulley') ? 0.12 : Math.min(0.75, Math.max(0.15, short * 0.5));
  return {
    late: trouble * (1 - missedPart),
    missed: trouble * missedPart,
    overshot: Math.min(0.2, Math.max(0, -short - 0.9) * 0.2),
  };
}

const chancesOf = { gates: gateChances, table: tableChances, linear: linearChances } as const;

function commandedCogs(random: SeededRandom, cogs: number, count: number): [number, number][] {
  const moves: [number, number][] = [];
  let cog = Math.floor(cogs / 2);
  let wish = cog;
  while (moves.length < count) {
    if (random.chance(0.12))
      wish = Math.min(cogs - 1, Math.max(0, Math.round(cogs * 0.52 + cogs * 0.3 * random.normal())));
    const step = random.chance(0.82) ? 1 : 2;
    const drift = wish === cog ? (random.chance(0.5) ? 1 : -1) : Math.sign(wish - cog);
    const next = Math.min(cogs - 1, Math.max(0, cog + drift * step));
    if (next !== cog) moves.push([cog, next]);
    cog = next;
  }
  return moves;
}

function observe(outcome: Outcome, random: SeededRandom, noise: number): Outcome {
  const u = random.uniform();
  if (outcome === 'clean') return u < noise ? 'late' : u < noise * 1.33 ? 'missed' : 'clean';
  if (outcome === 'late') return u < 0.12 ? 'clean' : u < 0.2 ? 'missed' : 'late';
  if (outcome === 'missed') return u < 0.06 ? 'late' : u < 0.09 ? 'clean' : 'missed';
  return u < 0.1 ? 'missed' : outcome;
}

function soft(outcome: Outcome, random: SeededRandom): { confidence: number; probability: ShiftEvent['probability'] } {
  const sure = outcome === 'clean' ? random.between(0.85, 0.999) : random.between(0.6, 0.99);
  const probability = { clean: 0, late: 0, missed: 0, overshot: 0 };
  if (outcome === 'unjudged') return { confidence: 0.5, probability };
  probability[outcome] = sure;
  probability[outcome === 'clean' || outcome === 'missed' ? 'late' : 'clean'] += 1 - sure;
  return { confidence: sure, probability };
}

function oneRide(options: GeneratorOptions, index: number, bike: Bike, random: SeededRandom): RideEvents {
  const { cogs } = bike;
  const present = index >= (options.faultFromRide ?? 0) && index < (options.curedFromRide ?? Number.POSITIVE_INFINITY);
  const now: Bike = present ? bike : { ...bike, cause: 'no-fault' };
  const addedMm = options.offsetMmByRide?.[index] ?? 0;
  const noise = options.detectionNoise ?? 0.01;
  const planned = options.planned?.ride === index ? options.planned.moves : null;
  const drawn = Math.round((options.shiftsPerRide ?? 220) * random.between(0.8, 1.2));
  const count = planned?.length ?? (options.shiftsOnRide?.ride === index ? options.shiftsOnRide.shifts : drawn);
  const moves = planned
    ? planned.map(({ fromCog, toCog }): [number, number] => [fromCog, toCog])
    : commandedCogs(random, cogs, count);
  const durationS = 7200;
  const shifts: ShiftEvent[] = [];
  const chainDrops: ChainDropEvent[] = [];
  const dayFactor = Math.exp(0.2 * random.normal());
  moves.forEach(([fromCog, toCog], i) => {
    const timeS = ((i + 0.5) * durationS) / count;
    const larger = toCog > fromCog;
    const torqueNm = planned ? (planned[i].firm ? 48 : 16) : 28 * Math.exp(0.45 * random.normal());
    const hard = (torqueNm - 28) / 15;
    const chances = chancesOf[bike.family](now, toCog, larger, hard, addedMm);
    const healthy = 0.006 * (larger ? bike.directionFactor : 1 / bike.directionFactor);
    const rider = hard > 1 ? (options.riderTrouble ?? 0) : 0;
    const u = random.uniform();
    const scale = present ? dayFactor : 1;
    const missed = Math.min(0.9, (chances.missed + rider * 0.3) * scale + healthy * 0.2);
    const late = Math.min(0.95 - missed, (chances.late + rider * 0.7) * scale + healthy);
    const truth: Outcome =
      u < missed ? 'missed' : u < missed + late ? 'late' : u < missed + late + chances.overshot ? 'overshot' : 'clean';
    const outcome = random.chance(0.25) ? 'unjudged' : observe(truth, random, noise);
    const looseEnd =
      (now.cause === 'low-limit-loose' && larger && toCog === cogs - 1) ||
      (now.cause === 'high-limit-loose' && !larger && toCog === 0);
    if (looseEnd && random.chance(bike.severe ? 0.25 : 0.08))
      chainDrops.push({
        timeS: timeS + 2,
        side: random.chance(0.25) ? 'unknown' : now.cause === 'low-limit-loose' ? 'past-largest' : 'past-smallest',
        afterShiftTo: random.chance(0.9) ? toCog : null,
        confidence: random.between(0.6, 0.99),
      });
    shifts.push({
      ...madeShift(timeS, fromCog, toCog, outcome),
      crankRevs: outcome === 'clean' ? 0.8 : outcome === 'late' ? 2.5 : null,
      ...soft(outcome, random),
      torqueNm: options.power === false ? Number.NaN : torqueNm,
      cadenceRpm: 80,
    });
  });
  const pedallingSByCog = new Float64Array(cogs);
  moves.forEach(([, to]) => {
    pedallingSByCog[to] += (durationS * 0.75) / count;
  });
  return {
    shifts,
    ghostShifts: ghosts(now, addedMm, pedallingSByCog, random),
    chainDrops,
    skips: skips(now, pedallingSByCog, random),
    pedallingSByCog,
  };
}

function ghosts(bike: Bike, addedMm: number, pedallingS: Float64Array, random: SeededRandom): GhostShiftEvent[] {
  const found: GhostShiftEvent[] = [];
  pedallingS.forEach((seconds, cog) => {
    const error = (errorMm(bike, cog, true, addedMm) + errorMm(bike, cog, false, addedMm)) / 2;
    const perHour = Math.abs(error) > 0.55 ? (bike.severe ? 9 : 2) : 0.01;
    const toCog = cog + Math.sign(error || 1);
    if (toCog < 0 || toCog >= bike.cogs) return;
    for (let t = random.exponential(3600 / perHour); t < seconds; t += random.exponential(3600 / perHour))
      found.push({ timeS: t, fromCog: cog, toCog, heldS: 4, confidence: random.between(0.6, 0.98), torqueNm: 25 });
  });
  return found;
}

function skips(bike: Bike, pedallingS: Float64Array, random: SeededRandom): SkipEvent[] {
  const most = Math.max(...pedallingS);
  const found: SkipEvent[] = [];
  pedallingS.forEach((seconds, cog) => {
    const worn = bike.cause === 'worn-drivetrain' && seconds > 0.35 * most;
    const perHour = worn ? (bike.severe ? 14 : 3) : 0.02;
    for (let t = random.exponential(3600 / perHour); t < seconds; t += random.exponential(3600 / perHour))
      found.push({ timeS: t, cog, confidence: random.between(0.55, 0.97), torqueNm: 45 });
  });
  return found;
}

/** Rides of one bike, a week apart, beginning 2026-04-01. The same options give the same rides. */
export function generateRides(options: GeneratorOptions): DiagnosisRide[] {
  const random = seededRandom(options.seed, options.cause, options.family, options.severity);
  const cogs = options.cogs ?? 12;
  const severe = options.severity === 'severe';
  const bike: Bike = {
    cause: options.cause,
    severe,
    family: options.family,
    cogs,
    random,
    tiltSign: random.chance(0.5) ? 1 : -1,
    pivot: random.between(0.3, 0.7),
    size: severe ? random.between(0.85, 1.3) : random.between(0.5, 0.75),
    cogFactor: Array.from({ length: cogs }, () => Math.exp(0.3 * random.normal())),
    directionFactor: Math.exp(0.4 * random.normal()),
  };
  return Array.from({ length: options.rides }, (_, i) => ({
    startMs: Date.UTC(2026, 3, 1 + 7 * i, 8),
    durationS: 7200,
    evidence: 'full' as const,
    events: oneRide(options, i, bike, random),
  }));
}
