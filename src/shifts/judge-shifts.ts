import type { RideTrace } from '../gear-trace/gear-trace.ts';
import type { RideLog } from '../ride-log/ride-log.ts';
import { type ArrivalTable, arrivalTable } from './arrival-table.ts';
import { type CommandedShift, firstAfter } from './commanded-shifts.ts';
import { estimateTiming } from './estimate-timing.ts';
import type { RevolutionClock } from './revolution-clock.ts';
import type { Direction, Outcome, OutcomeProbability, ShiftEvent } from './ride-events.ts';
import {
  CLEAN_REVS,
  cleanRevs,
  LATE_REVS,
  lateRevs,
  REV_STEP,
  revolutionsLikelihood,
  type ShiftTiming,
  veryLateRevs,
} from './shift-timing.ts';

/** Shares of the ways a shift can go, before looking at it. Start: a bike in fair order (assumption of ours); then the ride's own. */
interface Shares {
  clean: number;
  late: number;
  veryLate: number;
  never: number;
  overshot: number;
}

const START_SHARES: Shares = { clean: 0.96, late: 0.02, veryLate: 0.003, never: 0.014, overshot: 0.003 };
/** How many shifts the start shares count for against the ride's own. */
const START_WEIGHT = 30;
const ROUNDS = 3;
const MIN_PEDALLED_S = 2;
const none: OutcomeProbability = { clean: 0, late: 0, missed: 0, overshot: 0 };

/** The judged shifts of a ride with a trace, and the timing that was found on the way. */
export interface JudgedShifts {
  readonly shifts: ShiftEvent[];
  readonly timing: ShiftTiming;
}

/**
 * Judges every commanded shift: for each the probability that the chain was on the commanded cog within 1.5 turns of the cranks,
 * within 5, not at all, or went beyond, with the ride's own lag, smearing and share of troubled shifts (empirical Bayes:
 * Efron and Morris 1973), the latter for each direction.
 */
export function judgeShifts(
  log: RideLog,
  trace: RideTrace,
  commanded: readonly CommandedShift[],
  clock: RevolutionClock,
): JudgedShifts {
  const timing = estimateTiming(log, trace, commanded, clock);
  const stories = commanded.map((shift) => {
    if (shift.pedalledS < MIN_PEDALLED_S) return null;
    const table = arrivalTable(log, trace, shift, timing.riseWidthS, timing.lagS);
    return table.seen > 0 ? shiftStories(table, timing, clock) : null;
  });

  const shares: Record<Direction, Shares> = { 'to-larger': START_SHARES, 'to-smaller': START_SHARES };
  for (let round = 0; round < ROUNDS; round++) {
    for (const direction of ['to-larger', 'to-smaller'] as const) {
      const weighed = stories.flatMap((story, i) =>
        story && commanded[i].direction === direction ? [weigh(story, shares[direction]).parts] : [],
      );
      shares[direction] = updated(weighed);
    }
  }

  const shifts = commanded.map((shift, i): ShiftEvent => {
    const story = stories[i];
    const load = loadDuring(log, shift);
    const base = {
      timeS: shift.timeS,
      fromCog: shift.fromCog,
      toCog: shift.toCog,
      direction: shift.direction,
      ...load,
      weak: false,
    };
    if (!story) return { ...base, outcome: 'unjudged', crankRevs: null, confidence: 1, probability: none };
    const { probability, crankRevs } = weigh(story, shares[shift.direction]);
    const outcome = (Object.keys(probability) as (keyof OutcomeProbability)[]).reduce<Exclude<Outcome, 'unjudged'>>(
      (best, name) => (probability[name] > probability[best] ? name : best),
      'clean',
    );
    const done = outcome === 'clean' || outcome === 'late';
    return {
      ...base,
      outcome,
      crankRevs: done ? crankRevs(outcome) : null,
      confidence: probability[outcome],
      probability,
    };
  });
  return { shifts, timing };
}

/** Likelihoods of a shift's stories, common factor left out. `revs[k]`: done after k steps of the revolutions grid. */
interface Stories {
  readonly revs: Float64Array;
  readonly never: number;
  readonly short: number;
  readonly beyond: number;
  /** Steps of the grid that were pedalled before the rider shifted again. */
  readonly stepsPedalled: number;
  readonly alreadyThere: boolean;
}

function shiftStories(table: ArrivalTable, timing: ShiftTiming, clock: RevolutionClock): Stories {
  const { shift, finalCogs, startCog } = table;
  const rowOf = (cog: number): Float64Array => table.logLikelihood[finalCogs.indexOf(cog)];
  const beyondSign = shift.toCog > shift.fromCog ? 1 : -1;
  const likelihoods = finalCogs.map((cog) => revolutionsLikelihood(rowOf(cog), table, timing, clock));
  const stay = rowOf(shift.toCog).at(-1) as number;
  const top = Math.max(stay, ...likelihoods.map((revs) => Math.max(...revs)));
  const prompt = (revs: Float64Array): number => {
    let sum = 0;
    for (let k = 0; k < revs.length; k++) sum += (0.7 * cleanRevs[k] + 0.3 * lateRevs[k]) * Math.exp(revs[k] - top);
    return sum;
  };
  const mean = (cogs: number[]): number =>
    cogs.length === 0
      ? 0
      : cogs.reduce((sum, cog) => sum + prompt(likelihoods[finalCogs.indexOf(cog)]), 0) / cogs.length;
  return {
    revs: likelihoods[finalCogs.indexOf(shift.toCog)].map((value) => Math.exp(value - top)),
    never: startCog === shift.toCog ? 0 : Math.exp(stay - top),
    short: mean(finalCogs.filter((cog) => cog !== startCog && (cog - shift.toCog) * beyondSign < 0)),
    beyond: mean(finalCogs.filter((cog) => (cog - shift.toCog) * beyondSign > 0)),
    stepsPedalled: (clock.at(shift.untilS) - clock.at(shift.lastTimeS)) / REV_STEP,
    alreadyThere: startCog === shift.toCog,
  };
}

function weigh(
  story: Stories,
  shares: Shares,
): { parts: Shares; probability: OutcomeProbability; crankRevs: (outcome: 'clean' | 'late') => number } {
  const parts: Shares = { clean: 0, late: 0, veryLate: 0, never: 0, overshot: 0 };
  const sums = { clean: 0, late: 0 };
  for (let k = 0; k < story.revs.length; k++) {
    const inTime = k < story.stepsPedalled;
    const likelihood = story.revs[k];
    const clean = shares.clean * cleanRevs[k] * likelihood;
    const late = shares.late * lateRevs[k] * likelihood;
    if (inTime) {
      parts.clean += clean;
      parts.late += late;
      sums.clean += clean * (k + 0.5) * REV_STEP;
      sums.late += late * (k + 0.5) * REV_STEP;
    } else parts.veryLate += clean + late;
    parts.veryLate += shares.veryLate * veryLateRevs[k] * likelihood;
  }
  // a shift that stops on a cog between is a miss too, a rarer one
  parts.never = shares.never * (0.85 * story.never + 0.15 * story.short);
  parts.overshot = shares.overshot * story.beyond;
  const total = parts.clean + parts.late + parts.veryLate + parts.never + parts.overshot || 1;
  for (const key of Object.keys(parts) as (keyof Shares)[]) parts[key] /= total;
  const { clean, late, veryLate, never, overshot } = parts;
  return {
    parts,
    probability: { clean, late, missed: veryLate + never, overshot },
    crankRevs: (outcome) =>
      story.alreadyThere
        ? 0
        : parts[outcome] > 0
          ? sums[outcome] / total / parts[outcome]
          : outcome === 'late'
            ? LATE_REVS
            : CLEAN_REVS,
  };
}

function updated(weighed: readonly Shares[]): Shares {
  const total = { ...START_SHARES };
  for (const key of Object.keys(total) as (keyof Shares)[]) {
    let sum = START_WEIGHT * START_SHARES[key];
    for (const parts of weighed) sum += parts[key];
    total[key] = sum / (START_WEIGHT + weighed.length);
  }
  return total;
}

const LOAD_S = 3;

/** Mean crank torque and cadence over the 3 s from the command; NaN where the ride does not tell. */
function loadDuring(log: RideLog, shift: CommandedShift): { torqueNm: number; cadenceRpm: number } {
  let torque = 0;
  let torques = 0;
  let cadence = 0;
  let cadences = 0;
  for (
    let i = firstAfter(log.timeS, shift.timeS - 0.5);
    i < log.timeS.length && log.timeS[i] < shift.timeS + LOAD_S;
    i++
  ) {
    const rpm = log.cadenceRpm[i];
    if (!(rpm > 20)) continue;
    cadence += rpm;
    cadences++;
    if (Number.isNaN(log.powerW[i])) continue;
    torque += (log.powerW[i] * 60) / (2 * Math.PI * rpm);
    torques++;
  }
  return {
    torqueNm: torques > 0 ? torque / torques : Number.NaN,
    cadenceRpm: cadences > 0 ? cadence / cadences : Number.NaN,
  };
}
