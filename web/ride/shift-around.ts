import type { KeyedRideReport } from '../api/answers.ts';

type Shift = KeyedRideReport['shifts'][number];

/** What stands around a shift in its ride, for saying of it what its own two cogs leave open. */
export interface ShiftAround {
  /** Seconds until the next shift where that came before the turns were up after which a shift is missed; else null. */
  readonly cutShortS: number | null;
  /** The cog the chain lay on when it had not yet come to the one the shift began at; null where it had, or nobody knows. */
  readonly stoodOn: number | null;
  /** True where the cog it began at had been asked for with hardly any pedalling since. */
  readonly whileCoasting: boolean;
  /** False where the chain's own line never comes to the cog asked for before the next shift. */
  readonly lineArrives: boolean;
  /** Seconds until that line is on the cog asked for, where it comes there before the turns are up or the next shift; else null. */
  readonly lineInTimeS: number | null;
}

/** The shift at `index` among those of the report. Times are seconds from the shift's own. */
export function shiftAround(
  { shifts, gears, sensorLagS }: Pick<KeyedRideReport, 'shifts' | 'gears' | 'sensorLagS'>,
  index: number,
): ShiftAround {
  const shift = shifts[index];
  const since = (iso: string): number => (Date.parse(iso) - Date.parse(shift.at)) / 1000;
  const before: Shift | undefined = shifts[index - 1];
  const next: Shift | undefined = shifts[index + 1];
  const nextShiftS = next ? since(next.at) : null;
  const lagS = Math.max(0, sensorLagS ?? 0);
  const runs = gears.map(({ at, teeth }, i) => ({
    fromS: since(at),
    toS: i + 1 < gears.length ? since(gears[i + 1].at) : Number.POSITIVE_INFINITY,
    teeth,
  }));
  const wasOn = (teeth: number, fromS: number, toS: number): boolean =>
    runs.some((run) => run.teeth === teeth && run.fromS <= toS && run.toS > fromS);
  const followsOn = before !== undefined && before.toTeeth === shift.fromTeeth;
  const atLast = runs.findLast(({ teeth, fromS }) => teeth !== null && fromS <= 0)?.teeth ?? null;
  const cameToStart = !followsOn || wasOn(shift.fromTeeth, since(before.at), lagS);
  const watchedS = Math.max(shift.turns?.doneS ?? 0, nextShiftS ?? 0) + lagS;
  const lateUntilS = shift.turns?.lateUntilS ?? null;
  const inTimeS = Math.min(
    lateUntilS ?? Number.POSITIVE_INFINITY,
    nextShiftS === null ? Number.POSITIVE_INFINITY : nextShiftS + lagS,
  );
  const inTime = runs.find(({ teeth, fromS }) => teeth === shift.toTeeth && fromS > 0 && fromS < inTimeS);
  const isCut = nextShiftS !== null && (lateUntilS === null || nextShiftS + lagS < lateUntilS);
  return {
    cutShortS: isCut ? nextShiftS : null,
    stoodOn: cameToStart || atLast === shift.fromTeeth ? null : atLast,
    whileCoasting: before?.unjudgedBecause === 'no-pedalling',
    lineArrives: gears.length === 0 || wasOn(shift.toTeeth, 0, watchedS),
    lineInTimeS: inTime?.fromS ?? null,
  };
}
