import { logSumExp } from '../../numeric/log-sum-exp.ts';
import { ARRIVALS, type OpenCase, rise, type ShiftWindow } from './shift-window.ts';

/** How well the records of one shift fit each path of the chain: log likelihoods by moment of arrival on the path's last cog. */
export interface ChainPaths {
  /** The chain does not leave its cog: the same at every moment. */
  readonly staying: Float64Array;
  /** From the start to a cog without a halt. */
  straightTo(finalCog: number): Float64Array;
  /** Promptly from the start to a cog, a halt there, and on to the next at the moment of arrival. */
  haltingOn(haltCog: number, finalCog: number): Float64Array;
}

/** A way from one stand of the chain to another: the stands by record, and the columns that each would make alone. */
interface Stands {
  readonly fromLevel: (i: number) => number;
  readonly leaving: readonly Float64Array[];
  readonly toLevel: number;
  readonly arrived: readonly Float64Array[];
}

/**
 * The paths of the chain through one window.
 *
 * @param haltsS when the sensors may show the halt of a chain that went promptly to where it halts, each moment as likely as another, s; one at least
 */
export function chainPaths(window: ShiftWindow, startCog: number, haltsS: readonly number[]): ChainPaths {
  const startLevel = window.level(startCog);
  const stands = new Map<number, Float64Array[]>();
  const standingOn = (cog: number): Float64Array[] => {
    const columns = stands.get(cog) ?? columnsAt(window, () => window.level(cog));
    stands.set(cog, columns);
    return columns;
  };
  const stay = logMixture(
    Float64Array.from(standingOn(startCog), (column) => column.reduce((sum, value) => sum + value, 0)),
    window.open,
  );
  const endingOn = (cog: number) => ({ toLevel: window.level(cog), arrived: standingOn(cog) });
  return {
    staying: new Float64Array(ARRIVALS).fill(stay),
    straightTo: (finalCog) =>
      arrivalRow(window, {
        fromLevel: () => startLevel,
        leaving: standingOn(startCog),
        ...endingOn(finalCog),
      }),
    haltingOn: (haltCog, finalCog) => {
      const rows = haltsS.map((haltS) => {
        const fromLevel = (i: number): number =>
          startLevel + rise(window.timeS[i] - haltS, window.width) * (window.level(haltCog) - startLevel);
        return arrivalRow(window, { fromLevel, leaving: columnsAt(window, fromLevel), ...endingOn(finalCog) });
      });
      return rows[0].map((_, a) => logSumExp(rows.map((row) => row[a])) - Math.log(rows.length));
    },
  };
}

/** Log likelihood of each record of a window, a column for each open case, where the chain stands at `own(i)`. */
function columnsAt({ records, open, likelihood }: ShiftWindow, own: (i: number) => number): Float64Array[] {
  return open.map((one) => Float64Array.from(records, (i) => likelihood(i, own(i), one)));
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

function logMixture(total: Float64Array, open: readonly OpenCase[]): number {
  let top = total[0];
  for (const value of total) if (value > top) top = value;
  let sum = 0;
  for (let o = 0; o < total.length; o++) sum += open[o].weight * Math.exp(total[o] - top);
  return top + Math.log(sum);
}
