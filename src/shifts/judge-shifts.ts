import type { RideTrace } from '../gear-trace/gear-trace.ts';
import type { RideLog } from '../ride-log/ride-log.ts';
import { arrivalTable, WINDOW_INDEPENDENCE } from './arrival-table.ts';
import { type CommandedShift, firstAfter } from './commanded-shifts.ts';
import { estimateTiming } from './estimate-timing.ts';
import type { RevolutionClock } from './revolution-clock.ts';
import type { Outcome, OutcomeProbability, ShiftEvent } from './ride-events.ts';
import { secondsEvidence } from './seconds-evidence.ts';
import { shiftContexts } from './shift-context.ts';
import { type ShiftStories, shiftStories } from './shift-stories.ts';
import {
  CLEAN_REVS,
  cleanRevs,
  LATE_REVS,
  lateRevs,
  REV_STEP,
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

const START_SHARES: Shares = { clean: 0.966, late: 0.02, veryLate: 0.002, never: 0.01, overshot: 0.002 };
/** How many shifts the start shares count for against the ride's own. */
const START_WEIGHT = 30;
/** How many shifts the direction's shares count for against those onto one cog. */
const DIRECTION_WEIGHT = 15;
/** Of missed shifts, the share that stops on a cog between; where none seems to lie between, the trace may have mistaken the start. */
const HALTED_MISSES = { single: 0.15, overSeveral: 0.5 } as const;
const ROUNDS = 5;
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
  const evidence = secondsEvidence(log, trace, WINDOW_INDEPENDENCE);
  const stories = commanded.map((shift, j) => {
    if (shift.pedalledS < MIN_PEDALLED_S) return null;
    const tables = shiftContexts(log, trace, commanded, j, timing.lagS).map((context) =>
      arrivalTable(log, trace, evidence, shift, context, timing.riseWidthS),
    );
    return tables.some(({ seen }) => seen > 0) ? shiftStories(tables, timing, clock) : null;
  });
  const sharesOf = shareEstimates(commanded, stories);

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
    const { probability, crankRevs } = weigh(story, sharesOf(shift));
    const outcome = namedOutcome(probability);
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

/** Clean, or the likeliest kind of trouble where trouble of any kind is the likelier. */
function namedOutcome(probability: OutcomeProbability): Exclude<Outcome, 'unjudged'> {
  if (probability.clean >= 0.5) return 'clean';
  return (['late', 'missed', 'overshot'] as const).reduce((best, name) =>
    probability[name] > probability[best] ? name : best,
  );
}

function weigh(
  story: ShiftStories,
  shares: Shares,
): { parts: Shares; probability: OutcomeProbability; crankRevs: (outcome: 'clean' | 'late') => number } {
  const parts: Shares = { clean: 0, late: 0, veryLate: 0, never: 0, overshot: 0 };
  const sums = { clean: 0, late: 0 };
  for (let k = 0; k < story.revs.length; k++) {
    const inTime = k < story.stepsPedalled;
    const clean = shares.clean * cleanRevs[k] * story.revs[k];
    const late = shares.late * lateRevs[k] * story.lateRevs[k];
    if (inTime) {
      parts.clean += clean;
      parts.late += late;
      sums.clean += clean * (k + 0.5) * REV_STEP;
      sums.late += late * (k + 0.5) * REV_STEP;
    } else parts.veryLate += clean + late;
    parts.veryLate += shares.veryLate * veryLateRevs[k] * story.lateRevs[k];
  }
  // a shift that stops on a cog between is a miss too
  const halts = story.over > 1 ? HALTED_MISSES.overSeveral : HALTED_MISSES.single;
  parts.never = shares.never * ((1 - halts) * story.never + halts * story.short);
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

/**
 * The ride's own shares of clean, late and missed shifts: for each direction drawn towards a bike in fair order, for each cog and direction
 * towards those of its direction. Faults sit at single cogs or in one direction, and there even a doubtful miss is likely one.
 */
function shareEstimates(
  commanded: readonly CommandedShift[],
  stories: readonly (ShiftStories | null)[],
): (shift: CommandedShift) => Shares {
  const key = (shift: CommandedShift): string => `${shift.direction} ${shift.toCog}`;
  const directions = new Map<string, Shares>();
  const cogs = new Map<string, Shares>();
  const sharesOf = (shift: CommandedShift): Shares =>
    cogs.get(key(shift)) ?? directions.get(shift.direction) ?? START_SHARES;
  for (let round = 0; round < ROUNDS; round++) {
    const byDirection = new Map<string, Shares[]>();
    const byCog = new Map<string, Shares[]>();
    stories.forEach((story, i) => {
      if (!story) return;
      const { parts } = weigh(story, sharesOf(commanded[i]));
      push(byDirection, commanded[i].direction, parts);
      push(byCog, key(commanded[i]), parts);
    });
    for (const [direction, parts] of byDirection) directions.set(direction, updated(parts, START_SHARES, START_WEIGHT));
    for (const [name, parts] of byCog)
      cogs.set(name, updated(parts, directions.get(name.split(' ')[0]) ?? START_SHARES, DIRECTION_WEIGHT));
  }
  return sharesOf;
}

function push(map: Map<string, Shares[]>, name: string, parts: Shares): void {
  const list = map.get(name);
  if (list) list.push(parts);
  else map.set(name, [parts]);
}

function updated(weighed: readonly Shares[], towards: Shares, weight: number): Shares {
  const total = { ...towards };
  for (const key of Object.keys(total) as (keyof Shares)[]) {
    let sum = weight * towards[key];
    for (const parts of weighed) sum += parts[key];
    total[key] = sum / (weight + weighed.length);
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
