import { FileError } from '../errors/file-error.ts';
import { counted } from '../numeric/counted.ts';
import { figure } from '../numeric/figure.ts';
import { cadenceFromRps } from './cadence-unit.ts';
import { gearColumns } from './gear-columns.ts';
import { hasClock } from './has-clock.ts';
import { type BoundedColumn, possibleRange, setAsideImpossible } from './impossible-values.ts';
import { mergeTies, type OrderedColumns } from './merge-ties.ts';
import { orderRecords } from './order-records.ts';
import type { RideDraft } from './ride-draft.ts';
import type { GearRecords, Pause, RideLog } from './ride-log.ts';
import { rideSpeed } from './ride-speed.ts';
import { joinDistances } from './rising-distance.ts';
import { type MeterColumns, setAsideUnmeasuredPower } from './unmeasured-power.ts';
import { virtualSpeed } from './virtual-speed.ts';

/**
 * Makes a ride of a draft: puts records in time order, joins those of one moment, sets aside what cannot be true, and
 * derives speed where none was recorded. Each thing mended or set aside becomes a warning. Throws `no-records`, or
 * `no-time` where no record has one; `fileTypes` is what the file calls itself, for that message.
 */
export function finishRide(draft: RideDraft, fileTypes: readonly string[] = []): RideLog {
  if (draft.length === 0) throw noRecords(draft, fileTypes);
  const columns = inOrder(draft);
  if (cadenceFromRps(columns.cadenceRpm))
    draft.warn('cadence-unit', 'Recorded cadence stays under 4: it was read as turns a second, not a minute.');
  setAside(draft, 'cadence', columns.cadenceRpm);
  setAside(draft, 'power', columns.powerW);
  const startMs = columns.timeMs[0];
  const endMs = columns.timeMs[columns.timeMs.length - 1];
  const timeS = columns.timeMs.map((ms) => (ms - startMs) / 1000);
  setAsideZeroPower(draft, { ...columns, timeS });
  joinRuns(draft, columns);
  const { speedMps, speedSource } = rideSpeed(draft, timeS, columns);
  setAside(draft, 'speed', speedMps);
  const gearRecords = gearsOf(draft, startMs, endMs);
  warnOfClock(draft, startMs);
  const virtual = /virtual/.test(`${draft.sport} ${draft.subSport}`);
  if (virtual)
    draft.warn(
      virtualSpeed,
      'The file calls itself a virtual ride: its speed is computed, not ridden, and tells nothing of gears.',
    );
  return {
    file: draft.file,
    format: draft.format,
    sport: draft.sport,
    subSport: draft.subSport,
    startMs,
    timeS,
    speedMps,
    cadenceRpm: columns.cadenceRpm,
    powerW: columns.powerW,
    distanceM: columns.distanceM,
    speedSource: virtual ? 'computed' : speedSource,
    gearRecords,
    pauses: pausesOf(draft, startMs, endMs),
    warnings: draft.warnings,
  };
}

function noRecords(draft: RideDraft, fileTypes: readonly string[]): FileError {
  if (draft.timeless > 0) {
    const found = `holds ${counted(draft.timeless, 'record')}, but none says when it was`;
    return new FileError(draft.file, 'no-time', found, 'Give a recorded ride, not a planned route.');
  }
  const calls = fileTypes.length > 0 ? ` (it calls itself ${fileTypes[0].replaceAll('_', ' ')})` : '';
  const mend = 'Export the ride itself, with its recorded data, from the device.';
  return new FileError(draft.file, 'no-records', `holds no ride records${calls}`, mend);
}

/** The draft's records in time order, one a moment. */
function inOrder(draft: RideDraft): OrderedColumns {
  if (draft.timeless > 0)
    draft.warn('records-without-time', `${counted(draft.timeless, 'record')} without a time: left out.`);
  const { order, clockJumps, backward, sorted } = orderRecords(draft.timeMs.values(), draft.runStarts);
  if (sorted) draft.warn('records-sorted', 'The records were not in order of time: sorted.');
  const columns = mergeTies(draft, order);
  warnOfOrder(draft, { clockJumps, backward, ...columns });
  return columns;
}

function warnOfOrder(
  draft: RideDraft,
  {
    clockJumps,
    backward,
    repeated,
    beyondSeconds,
  }: Record<'clockJumps' | 'backward' | 'repeated' | 'beyondSeconds', number>,
): void {
  if (clockJumps > 0)
    draft.warn(
      'clock-jump',
      `${counted(clockJumps, 'record')} dated days or years from the rest, as by a clock that jumps: set aside.`,
    );
  if (backward > 0)
    draft.warn(
      'backward-time',
      `${counted(backward, 'record')} with a time that runs backwards or jumps ahead: set aside.`,
    );
  if (repeated > 0)
    draft.warn('repeated-time', `${counted(repeated, 'record')} with the time of another: joined with it.`);
  if (beyondSeconds > 0)
    draft.warn(
      'several-a-second',
      `The log holds several records a second; they are read one a second (${counted(beyondSeconds, 'record')} joined with the next).`,
    );
}

function setAside(draft: RideDraft, column: BoundedColumn, values: Float64Array): void {
  const count = setAsideImpossible(column, values);
  if (count > 0)
    draft.warn(
      `impossible-${column}`,
      `${counted(count, `${column} value`)} outside ${possibleRange(column)}: set aside.`,
    );
}

function setAsideZeroPower(draft: RideDraft, columns: MeterColumns): void {
  const seconds = setAsideUnmeasuredPower(columns);
  if (seconds > 0)
    draft.warn(
      'power-zero',
      `Power stands at zero for ${figure(Math.round(seconds / 60))} min of turning cranks, as from a meter that is flat or not paired: it was set aside there and counts as not recorded.`,
    );
}

function joinRuns(draft: RideDraft, columns: OrderedColumns): void {
  const outOfStep = joinDistances(columns.distanceM, columns.starts);
  if (outOfStep > 0)
    draft.warn('impossible-distance', `${counted(outOfStep, 'distance')} running backwards: set aside.`);
}

function gearsOf(draft: RideDraft, startMs: number, endMs: number): GearRecords {
  const { gearRecords, outside, impossible, positions } = gearColumns(draft.gears, startMs, endMs);
  if (outside > 0)
    draft.warn('gear-outside-ride', `${counted(outside, 'gear record')} far outside the ride's time: set aside.`);
  if (impossible > 0)
    draft.warn(
      'impossible-teeth',
      `${counted(impossible, 'gear record')} with impossible tooth counts: those count as unknown.`,
    );
  for (const [end, part] of [
    ['rear', 'cogs'],
    ['front', 'chainrings'],
  ] as const) {
    const numbers = positions[end];
    if (numbers.length > 0)
      draft.warn(
        positionsForTeeth,
        `The gear records name ${numbers[0]} to ${numbers.at(-1)} as ${end} teeth: these look like positions of the ${part}, not teeth, and were left out. Write the teeth of each.`,
      );
  }
  return gearRecords;
}

/** Code of the warning that gear records name positions where teeth are meant. */
export const positionsForTeeth = 'positions-for-teeth';

/** No ride is so long that seconds from its start reach this. */
const SECONDS_ALONE_BEFORE_MS = Date.UTC(1971, 0);

/** CSV may carry seconds from its start in place of a date: those count from 1970 and are no clock that was wrongly set. */
function warnOfClock(draft: RideDraft, startMs: number): void {
  const counted = draft.format === 'csv' && startMs < SECONDS_ALONE_BEFORE_MS;
  if (!counted && !hasClock(startMs))
    draft.warn(
      'clock-not-set',
      `The recorder's clock was not set: the ride is dated ${new Date(startMs).getUTCFullYear()}, and counts as one without a date. Set the clock, or let the recorder find it, before the next ride.`,
    );
}

/** Pauses within the ride, sorted; overlapping ones joined. */
function pausesOf(draft: RideDraft, startMs: number, endMs: number): Pause[] {
  const pauses: { startS: number; endS: number }[] = [];
  const sorted = [...draft.pausesMs].sort((a, b) => a.startMs - b.startMs);
  for (const pause of sorted) {
    const startS = (Math.max(pause.startMs, startMs) - startMs) / 1000;
    const endS = (Math.min(pause.endMs, endMs) - startMs) / 1000;
    if (!(endS > startS)) continue;
    const last = pauses.at(-1);
    if (last && startS <= last.endS) last.endS = Math.max(last.endS, endS);
    else pauses.push({ startS, endS });
  }
  return pauses;
}
