/** Below this a meter measures nothing. */
const HARDLY_ANY_W = 5;
/** Cadence above which the legs turn. */
const TURNING_RPM = 30;
/**
 * Turning legs at no power for longer than this is no rider: in real rides the longest such stretch is 9 s. An assumption of ours,
 * with room for a rider who spins along down a mountain.
 */
const LONGEST_SOFT_S = 120;
/** A second of power ends as much of a stretch as this many seconds without: a reading gone astray does not, a rider who pedals does. */
const SECONDS_A_SECOND_OF_POWER_ENDS = 20;
/** A longer step is a pause or lost records, and nobody is known to have pedalled within. */
const LONGEST_STEP_S = 10;

/** The columns that show whether a power meter measured; they share one index, NaN for missing. */
export interface MeterColumns {
  readonly timeS: Float64Array;
  readonly cadenceRpm: Float64Array;
  readonly powerW: Float64Array;
}

/**
 * Sets power to NaN, in place, where the legs turned for minutes at hardly a watt: a meter that is flat or was never paired writes
 * zeros, and a zero that was not measured would pass for coasting. Such a stretch is found as by a cumulative sum (Page 1954) that
 * rises with turning legs without power and falls steeply with power; it takes in the standing legs at both its ends.
 *
 * @returns seconds of turning legs set aside; 0 where the meter measured
 */
export function setAsideUnmeasuredPower(columns: MeterColumns): number {
  let setAsideS = 0;
  for (const { from, to } of unmeasured(columns)) {
    for (let i = from; i < to; i++) {
      if (!Number.isNaN(columns.powerW[i])) setAsideS += turningS(columns, i);
      columns.powerW[i] = Number.NaN;
    }
  }
  return setAsideS;
}

/** Stretches of records, end exclusive, in which the meter did not measure. */
function unmeasured(columns: MeterColumns): { readonly from: number; readonly to: number }[] {
  const { powerW } = columns;
  const stretches: { from: number; to: number }[] = [];
  let idleS = 0;
  let from = 0;
  for (let i = 0; i < powerW.length; i++) {
    const seconds = turningS(columns, i);
    if (powerW[i] >= HARDLY_ANY_W) {
      idleS = Math.max(0, idleS - SECONDS_A_SECOND_OF_POWER_ENDS * seconds);
      if (idleS === 0) from = i + 1;
    } else if (powerW[i] < HARDLY_ANY_W) idleS = Math.min(LONGEST_SOFT_S, idleS + seconds);
    if (idleS < LONGEST_SOFT_S) continue;
    // a step that goes on with the stretch before makes that one longer
    if (stretches.at(-1)?.from === from) stretches[stretches.length - 1].to = i + 1;
    else stretches.push({ from, to: i + 1 });
  }
  return stretches.map((stretch) => ({ from: stretch.from, to: withoutPowerUntil(powerW, stretch.to) }));
}

/** The first record with power from `record` on. */
function withoutPowerUntil(powerW: Float64Array, record: number): number {
  let to = record;
  while (to < powerW.length && !(powerW[to] >= HARDLY_ANY_W)) to++;
  return to;
}

/** Seconds that the legs turned in the step before a record. */
function turningS({ timeS, cadenceRpm }: MeterColumns, record: number): number {
  if (!(cadenceRpm[record] > TURNING_RPM)) return 0;
  const stepS = record > 0 ? timeS[record] - timeS[record - 1] : 1;
  return stepS <= LONGEST_STEP_S ? stepS : 0;
}
