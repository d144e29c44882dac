import { bisectRight, median } from 'd3-array';
import type { RideDraft } from './ride-draft.ts';

/** The draft's columns in order, one record a moment. `starts`: where each run begins. */
export interface OrderedColumns {
  readonly timeMs: Float64Array;
  readonly speedMps: Float64Array;
  readonly cadenceRpm: Float64Array;
  readonly powerW: Float64Array;
  readonly distanceM: Float64Array;
  readonly pathM: Float64Array;
  readonly starts: readonly number[];
  /** Records that measure something at the time of another that does. */
  readonly repeated: number;
  /** Records beyond one a second, in a log that is written faster. */
  readonly beyondSeconds: number;
}

/** Logs are read second by second: one whose records mostly follow one another faster than this is joined to seconds, ms. Fewer records do not tell. */
const FAST_MS = 700;
const LEAST_RECORDS = 60;

/**
 * Takes the records `order` out of the draft. Records of the same moment become one: of each column the last value
 * that is not missing, since some devices write one record with the speed and a second with the cadence. So do the records of one
 * second where the log is written several times a second: everything that is weighed later counts by records of about a second.
 */
export function mergeTies(draft: RideDraft, order: Uint32Array): OrderedColumns {
  const time = draft.timeMs.values();
  const place = new Uint32Array(order.length);
  const steps = Float64Array.from(order, (record, k) => (k === 0 ? 0 : time[record] - time[order[k - 1]]));
  const fast = order.length >= LEAST_RECORDS && (median(steps.filter((step) => step > 0)) ?? FAST_MS) < FAST_MS;
  const second = (record: number): number => Math.floor((time[record] - time[order[0]]) / 1000);
  const measures = measuringRecords(draft);
  let length = 0;
  let tied = 0;
  let repeated = 0;
  let measuredBefore = false;
  for (let k = 0; k < order.length; k++) {
    const same = k > 0 && steps[k] === 0;
    const measured = measures(order[k]);
    if (same && measured && measuredBefore) repeated++;
    measuredBefore = measured || (same && measuredBefore);
    if (same) tied++;
    else if (k === 0 || !fast || second(order[k]) !== second(order[k - 1])) length++;
    place[k] = length - 1;
  }
  const gather = (values: Float64Array): Float64Array => {
    const gathered = new Float64Array(length).fill(NaN);
    for (let k = 0; k < order.length; k++) if (!Number.isNaN(values[order[k]])) gathered[place[k]] = values[order[k]];
    return gathered;
  };
  const timeMs = gather(time);
  // the ride begins with its first record, not with the last of the first second
  if (length > 0) timeMs[0] = time[order[0]];
  return {
    timeMs,
    speedMps: gather(draft.speedMps.values()),
    cadenceRpm: gather(draft.cadenceRpm.values()),
    powerW: gather(draft.powerW.values()),
    distanceM: gather(draft.distanceM.values()),
    pathM: gather(draft.pathM.values()),
    starts: runStarts(draft.runStarts, order, place),
    repeated,
    beyondSeconds: order.length - length - tied,
  };
}

/** Whether a record of the draft measures anything: one that does not, as one that only names the gear again, takes nothing from another. */
function measuringRecords(draft: RideDraft): (record: number) => boolean {
  const columns = [draft.speedMps, draft.cadenceRpm, draft.powerW, draft.distanceM, draft.pathM].map((column) =>
    column.values(),
  );
  return (record) => columns.some((values) => !Number.isNaN(values[record]));
}

/** Where runs begin among the merged records: wherever the record kept belongs to another run than the one before it. */
function runStarts(drafted: readonly number[], order: Uint32Array, place: Uint32Array): number[] {
  const starts = [0];
  let run = -1;
  for (let k = 0; k < order.length; k++) {
    const inRun = order[k] >= (drafted[run] ?? Infinity) && order[k] < (drafted[run + 1] ?? Infinity);
    if (inRun) continue;
    run = bisectRight(drafted, order[k]) - 1;
    if (place[k] > starts[starts.length - 1]) starts.push(place[k]);
  }
  return starts;
}
