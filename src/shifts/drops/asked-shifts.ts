import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import { PEDALLING_RPM } from '../../gear-trace/samples/pedalling-rpm.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { sameBurst } from '../commands/same-burst.ts';
import { firstAfter } from '../first-after.ts';
import { firstWithin } from '../records-about.ts';
import { drove, worked } from './drove.ts';
import { type Halt, haltAfter } from './halt-after.ts';

/** In these seconds before the shift so many records must show the chain driving: who coasts then has a stop in mind already. */
const BEFORE_S = 3;
const LEAST_DRIVING = 2;
/** Who goes from coasting to a harder gear and pedals has none: there the legs may have begun with the shift. */
const BEGINNING_S = 2;
/** Legs without a chain stop this soon, as the sensor shows it: it may hold its last reading for 2 s. */
const LONGEST_PEDALLING_S = 6;
/** Some riders turn on for longer before they notice. That counts where nothing shows that they drove the bike, and after shifts to smaller cogs alone: nobody makes one for a stop. */
const LONGEST_IN_VAIN_S = 15;
const HALT_LASTS_S = 12;
/** So long after a shift the halt may begin: in a harder gear a bike rolls on longer. */
const HALT_WITHIN_S = { toLarger: 7, toSmaller: 30 } as const;

/** A halt of some length to which the bike rolled after a shift, with the record of the legs' last turn before it. */
export interface HaltAtOnce extends Halt {
  readonly lastTurn: number;
}

/** A shift asked for while the legs drove the bike, by its burst's last command. */
export interface AskedShift {
  readonly cog: number;
  /** The larger of that cog and of those on which the chain may have lain before its burst. */
  readonly largest: number;
  readonly toLarger: boolean;
  readonly askedS: number;
  /** First record not before the command. */
  readonly start: number;
  /** Set where within seconds nobody pedalled any more and the bike halted, before anything else was asked for. */
  readonly halted: HaltAtOnce | null;
}

/** The shifts of a ride that were asked for while the legs drove the bike, and whether the legs stopped at once and the bike halted. */
export function askedShifts(log: RideLog, trace: RideTrace): AskedShift[] {
  const { timeS, cog } = trace.commands;
  const { wholeSeconds } = log.gearRecords;
  const asked: AskedShift[] = [];
  for (let c = 1; c < timeS.length; c++) {
    const nextS = timeS[c + 1] ?? Number.POSITIVE_INFINITY;
    if (cog[c] === cog[c - 1] || sameBurst(nextS - timeS[c], wholeSeconds)) continue;
    const start = firstAfter(log.timeS, timeS[c] - 0.01);
    const toLarger = cog[c] > cog[c - 1];
    // nobody saw the legs of a shift after which nothing was recorded for so long
    if (start >= log.timeS.length || log.timeS[start] - timeS[c] > HALT_LASTS_S) continue;
    if (!(droveBefore(log, trace, start) || (!toLarger && setsIn(log, trace, start)))) continue;
    asked.push({
      cog: cog[c],
      largest: Math.max(...cog.subarray(burstFrom(trace, c, wholeSeconds), c + 1)),
      toLarger,
      askedS: timeS[c],
      start,
      halted: haltAtOnce(log, trace, { start, nextS, toLarger }),
    });
  }
  return asked;
}

/** The command before a burst, by the burst's last. */
function burstFrom({ commands: { timeS } }: RideTrace, last: number, wholeSeconds: boolean): number {
  let first = last;
  while (first > 1 && sameBurst(timeS[first] - timeS[first - 1], wholeSeconds)) first--;
  return first - 1;
}

/** Whether the chain drove in the seconds before a record. */
export function droveBefore(log: RideLog, trace: RideTrace, start: number): boolean {
  let driving = 0;
  for (let i = firstWithin(log.timeS, start, BEFORE_S); i < start; i++)
    if (log.cadenceRpm[i] > PEDALLING_RPM && trace.driving[i] > 0.5) driving++;
  return driving >= LEAST_DRIVING;
}

/** Whether the chain drives in the first seconds after the shift, or just before it. */
function setsIn({ timeS, cadenceRpm }: RideLog, { driving }: RideTrace, start: number): boolean {
  let drives = 0;
  for (let i = Math.max(0, start - 1); i < timeS.length && timeS[i] - timeS[start] < BEGINNING_S; i++)
    if (cadenceRpm[i] > PEDALLING_RPM && driving[i] > 0.5) drives++;
  return drives >= LEAST_DRIVING;
}

function haltAtOnce(
  log: RideLog,
  trace: RideTrace,
  { start, nextS, toLarger }: Pick<AskedShift, 'start' | 'toLarger'> & { readonly nextS: number },
): HaltAtOnce | null {
  const { timeS, cadenceRpm } = log;
  const halt = haltAfter(log, start, toLarger ? HALT_WITHIN_S.toLarger : HALT_WITHIN_S.toSmaller, HALT_LASTS_S);
  if (halt.lastsS === 0) return null;
  let [lastTurn, end] = [start, start];
  for (; end < timeS.length && timeS[end] - timeS[start] < halt.inS; end++)
    if (cadenceRpm[end] > PEDALLING_RPM) lastTurn = end;
  const turnedS = timeS[lastTurn] - timeS[start];
  const inVain = !toLarger && turnedS <= LONGEST_IN_VAIN_S && !drove(log, trace, { start, end });
  const soon = turnedS <= LONGEST_PEDALLING_S && worked(log, { start, end }) !== true;
  return nextS >= timeS[lastTurn] && (soon || inVain) ? { ...halt, lastTurn } : null;
}
