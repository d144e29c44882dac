import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import { nearNormalBelow } from '../../numeric/near-normal.ts';
import type { CommandedShift } from '../commands/commanded-shifts.ts';
import { firstAfter } from '../first-after.ts';
import type { RideInQuestion } from '../ride-in-question.ts';
import { turningFrom } from '../turns/turning-from.ts';
import type { ShiftContext } from './shift-context.ts';

/**
 * How well each story of one shift fits the records around it, in one reading of its surroundings. A story: the chain goes from
 * the start to `finalCog`, and the ratio follows some seconds after the command. `rows.get(finalCog)[a]` belongs to arrival
 * `FIRST_ARRIVAL_S + a * ARRIVAL_STEP_S`, counted from the burst's last command without the spells in which the cranks stood.
 * `stay`: not within the window.
 */
export interface ArrivalTable {
  readonly shift: CommandedShift;
  readonly context: ShiftContext;
  readonly rows: ReadonlyMap<number, Float64Array>;
  /**
   * Of a shift over several cogs: the same for reaching the commanded cog at each arrival after a halt on the cog before it,
   * which was reached promptly. Null for a single step.
   */
  readonly halted: Float64Array | null;
  /** The same for reaching the cog beyond the commanded one after having been promptly on that; null where that is not in question. */
  readonly ranOn: Float64Array | null;
  readonly stay: number;
  /** Records with a ratio after the command; 0 means that nothing was seen. */
  readonly seen: number;
}

/** The grid of arrivals: where it begins against the burst's last command, its step, how many. */
export const FIRST_ARRIVAL_S = -1.5;
export const ARRIVAL_STEP_S = 0.25;
export const ARRIVALS = 64;
const BEFORE_S = 4.5;
/** The chain passes over the cogs between: each takes some of a second more. */
const RISE_S_PER_COG = 0.15;
/**
 * What a window leaves open besides its story: a shared error of all its records (sensors err in runs; in standard deviations of each record),
 * and when the next shift shows itself, against the prompt moment (Infinity: it does not).
 */
const OPEN = [
  { error: 0, nextS: 0, weight: 0.36 },
  { error: -0.8, nextS: 0, weight: 0.13 },
  { error: 0.8, nextS: 0, weight: 0.13 },
  { error: 0, nextS: -0.6, weight: 0.13 },
  { error: 0, nextS: 0.6, weight: 0.13 },
  { error: 0, nextS: 1.4, weight: 0.07 },
  { error: 0, nextS: Number.POSITIVE_INFINITY, weight: 0.05 },
];
/** Without a next shift in the window only the shared error is open. */
const OPEN_ALONE = [
  { error: 0, nextS: 0, weight: 0.6 },
  { error: -0.8, nextS: 0, weight: 0.2 },
  { error: 0.8, nextS: 0, weight: 0.2 },
];

/** So many widths from its middle a rise is over, or has not begun. */
const RISEN = 3.53;

/** Smoothed unit step: the share of the change that a record shows `t` seconds after the ratio's middle. */
function rise(t: number, width: number): number {
  const z = t / width;
  return z > RISEN ? 1 : z < -RISEN ? 0 : nearNormalBelow(z);
}

/** The records around one shift, with what they would show in each story. */
interface ShiftWindow {
  readonly timeS: Float64Array;
  /** Indices of the records that speak of this shift. */
  readonly records: readonly number[];
  /** What is left open besides the story. */
  readonly open: typeof OPEN;
  /** How long the sensors smear this shift's change of ratio, s. */
  readonly width: number;
  /** The moments of arrival that are weighed, s. */
  readonly arrivalsS: Float64Array;
  /** Log development of a cog on the shift's ring. */
  level(cog: number): number;
  /** Log likelihood of record `i`, under what is open, where the chain stands at `own` between the shifts around this one. */
  likelihood(i: number, own: number, open: (typeof OPEN)[number]): number;
}

function shiftWindow(
  { log, trace, clock, evidence }: RideInQuestion,
  shift: CommandedShift,
  context: ShiftContext,
  riseWidthS: number,
): ShiftWindow {
  const model = trace.model;
  if (!model) throw new TypeError('arrivalTable needs a ride with a gear model');
  const { startCog, before, after, endS } = context;
  const from = firstAfter(log.timeS, shift.timeS - BEFORE_S);
  const to = firstAfter(log.timeS, endS);
  const ring = ringWithin(trace, from, to);
  const level = (cog: number): number => model.logDevelopment[ring * model.cogs + cog];
  const firstS = clock.standing.left(shift.lastTimeS) + FIRST_ARRIVAL_S;
  return {
    timeS: log.timeS,
    records: windowRecords(log.timeS, trace, shift, context, { ring, from, to }),
    open: after ? OPEN : OPEN_ALONE,
    width: riseWidthS + RISE_S_PER_COG * Math.max(0, Math.abs(shift.toCog - startCog) - 1),
    arrivalsS: Float64Array.from({ length: ARRIVALS }, (_, a) => clock.standing.moment(firstS + a * ARRIVAL_STEP_S)),
    level,
    likelihood(i, own, { error, nextS }) {
      let shown = own;
      if (before)
        shown = level(before.cog) + rise(log.timeS[i] - before.shownS, riseWidthS) * (shown - level(before.cog));
      if (after) shown += rise(log.timeS[i] - after.shownS - nextS, riseWidthS) * (level(after.cog) - shown);
      return evidence(i, shown + error * trace.deviation[i]);
    },
  };
}

/** Log likelihood of each record of a window, a column for each open case, where the chain stands at `own(i)`. */
function columnsAt({ records, open, likelihood }: ShiftWindow, own: (i: number) => number): Float64Array[] {
  return open.map((one) => Float64Array.from(records, (i) => likelihood(i, own(i), one)));
}

/** A way from one stand of the chain to another: the stands by record, and the columns that each would make alone. */
interface Stands {
  readonly fromLevel: (i: number) => number;
  readonly leaving: readonly Float64Array[];
  readonly toLevel: number;
  readonly arrived: readonly Float64Array[];
}

/** Log likelihood of the window by moment of arrival. */
function arrivalRow(window: ShiftWindow, { fromLevel, leaving, toLevel, arrived }: Stands): Float64Array {
  const { timeS, records, open, width } = window;
  const total = new Float64Array(open.length);
  return window.arrivalsS.map((arrivalS) => {
    total.fill(0);
    for (let r = 0; r < records.length; r++) {
      const i = records[r];
      const share = rise(timeS[i] - arrivalS, width);
      if (share < 0.02) for (let o = 0; o < total.length; o++) total[o] += leaving[o][r];
      else if (share > 0.98) for (let o = 0; o < total.length; o++) total[o] += arrived[o][r];
      else {
        const own = fromLevel(i) + share * (toLevel - fromLevel(i));
        for (let o = 0; o < total.length; o++) total[o] += window.likelihood(i, own, open[o]);
      }
    }
    return logMixture(total, open);
  });
}

/**
 * Weighs every story of a shift.
 *
 * @param riseWidthS how long the sensors smear a change of ratio, standard deviation in seconds
 * @throws TypeError for a ride without a gear model
 */
export function arrivalTable(
  ride: RideInQuestion,
  shift: CommandedShift,
  context: ShiftContext,
  riseWidthS: number,
): ArrivalTable {
  const window = shiftWindow(ride, shift, context, riseWidthS);
  const { log, trace, clock } = ride;
  const { startCog, after } = context;
  const standingOn = (cog: number): Float64Array[] => columnsAt(window, () => window.level(cog));
  const startLevel = window.level(startCog);
  const stayed = standingOn(startCog);
  const leavingStart = { fromLevel: () => startLevel, leaving: stayed };
  const rows = new Map<number, Float64Array>();
  for (const finalCog of cogsInQuestion(startCog, shift, after?.cog ?? -1, trace.model?.cogs ?? 0)) {
    const arrived = finalCog === startCog ? stayed : standingOn(finalCog);
    rows.set(finalCog, arrivalRow(window, { ...leavingStart, toLevel: window.level(finalCog), arrived }));
  }
  const step = Math.sign(shift.toCog - startCog);
  const viaHalt = (haltCog: number): Float64Array =>
    arrivalRow(window, {
      ...haltAt(window, startCog, haltCog, turningFrom(clock, shift.lastTimeS + context.lagS)),
      toLevel: window.level(haltCog + step),
      arrived: standingOn(haltCog + step),
    });
  const halted = Math.abs(shift.toCog - startCog) > 1 ? viaHalt(shift.toCog - step) : null;
  const ranOn = step !== 0 && rows.has(shift.toCog + step) ? viaHalt(shift.toCog) : null;
  const stay = logMixture(
    Float64Array.from(stayed, (column) => column.reduce((sum, value) => sum + value, 0)),
    window.open,
  );
  const seen = window.records.filter((i) => log.timeS[i] > shift.lastTimeS).length;
  return { shift, context, rows, halted, ranOn, stay, seen };
}

/** A chain that went promptly from the start to `haltCog` and halts there. */
function haltAt(
  window: ShiftWindow,
  startCog: number,
  haltCog: number,
  promptS: number,
): Pick<Stands, 'fromLevel' | 'leaving'> {
  const fromLevel = (i: number): number =>
    window.level(startCog) +
    rise(window.timeS[i] - promptS, window.width) * (window.level(haltCog) - window.level(startCog));
  return { fromLevel, leaving: columnsAt(window, fromLevel) };
}

function logMixture(total: Float64Array, open: readonly { readonly weight: number }[]): number {
  let top = total[0];
  for (const value of total) if (value > top) top = value;
  let sum = 0;
  for (let o = 0; o < total.length; o++) sum += open[o].weight * Math.exp(total[o] - top);
  return top + Math.log(sum);
}

/** Records of the window that speak of this shift: with a ratio, on its ring, and not of the time before the shift before. */
function windowRecords(
  timeS: Float64Array,
  trace: RideTrace,
  shift: CommandedShift,
  { startCog, before }: ShiftContext,
  { ring, from, to }: { readonly ring: number; readonly from: number; readonly to: number },
): number[] {
  const records: number[] = [];
  for (let i = from; i < to; i++) {
    if (Number.isNaN(trace.logDevelopment[i]) || trace.ring[i] !== ring) continue;
    if (timeS[i] <= shift.timeS && !before && trace.cog[i] !== startCog) continue;
    // within a burst the chain is on its way and on no cog for long
    if (timeS[i] > shift.timeS && timeS[i] <= shift.lastTimeS) continue;
    records.push(i);
  }
  return records;
}

/**
 * The commanded cog, two beyond it, and all between it and the start. Where the next shift soon goes on in the same direction, going
 * beyond looks like that shift and is left out.
 */
function cogsInQuestion(startCog: number, shift: CommandedShift, nextCog: number, cogs: number): number[] {
  const beyond = shift.toCog >= shift.fromCog ? 1 : -1;
  const wanted = new Set([shift.toCog]);
  if (nextCog < 0 || (nextCog - shift.toCog) * beyond < 0)
    wanted.add(shift.toCog + beyond).add(shift.toCog + 2 * beyond);
  const step = Math.sign(shift.toCog - startCog);
  if (step !== 0) for (let cog = startCog + step; cog !== shift.toCog; cog += step) wanted.add(cog);
  return [...wanted].filter((cog) => cog >= 0 && cog < cogs);
}

function ringWithin(trace: RideTrace, from: number, to: number): number {
  const middle = Math.floor((from + to) / 2);
  for (let d = 0; d < to - from; d++) {
    if (trace.ring[middle + d] >= 0) return trace.ring[middle + d];
    if (trace.ring[middle - d] >= 0) return trace.ring[middle - d];
  }
  return 0;
}
