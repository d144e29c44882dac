import type { GearTrace } from '../gear-trace/gear-trace.ts';
import type { RideEvents } from '../shifts/ride-events.ts';

/** What of a ride tells which cogs it shows. */
interface RideWithCogs {
  readonly measured: Pick<GearTrace['measured'], 'cassette'>;
  readonly shifts: RideEvents['shifts'];
}

/** Cogs (cassette indices) that no ride shows: neither measured by speed and cadence nor where a shift began or was to end. */
export function unseenCogs(rides: readonly RideWithCogs[], cassetteLength: number): number[] {
  const seen = new Set(
    rides.flatMap(({ measured, shifts }) => [
      ...measured.cassette.flatMap((teeth, cog) => (teeth === null ? [] : [cog])),
      ...shifts.flatMap(({ fromCog, toCog }) => [fromCog, toCog]),
    ]),
  );
  return Array.from({ length: cassetteLength }, (_, cog) => cog).filter((cog) => !seen.has(cog));
}
