import type { CommandedShift } from '../commands/commanded-shifts.ts';
import type { RideInQuestion } from '../ride-in-question.ts';
import { turningFrom } from '../turns/turning-from.ts';
import type { ShiftContext } from './shift-context.ts';
import { type OpenCase, rise, type ShiftWindow, shiftWindow } from './shift-window.ts';

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

function logMixture(total: Float64Array, open: readonly OpenCase[]): number {
  let top = total[0];
  for (const value of total) if (value > top) top = value;
  let sum = 0;
  for (let o = 0; o < total.length; o++) sum += open[o].weight * Math.exp(total[o] - top);
  return top + Math.log(sum);
}
