import { median } from 'd3-array';
import type { Warning } from '../../errors/warning.ts';
import { listed } from '../../numeric/listed.ts';
import { sinceStart } from '../../numeric/since-start.ts';
import type { BikeRide } from '../bike-ride.ts';
import { type DecodedGears, SURELY_DRIVING, SURELY_ON_COG } from '../decoding/decode-gears.ts';
import type { GearModel } from '../gear-model.ts';

/** Code of the warning that gear records are missing. */
export const gearRecordsMissing = 'gear-records-missing';
/** A chain rests on a cog where so many records in a row lie there, the middle one of them within so many deviations. */
const REST_RECORDS = 5;
const RESTS_WITHIN = 1.5;
/** No fault takes a chain to so many cogs, one of them so far from the cog that was asked for, before its rider shifts again (assumptions of ours). */
const LEAST_COGS = 3;
const FAR_COGS = 3;
/** The change that was not recorded may have been asked for so long before the chain is seen elsewhere. */
const ASKED_BEFORE_S = 8;

/** A stretch of a ride in which the rider changed gear and no record tells of it, s since the start; Infinity to the end. */
export interface MissingRecords {
  readonly fromS: number;
  readonly toS: number;
  /** How many cogs the chain rested on meanwhile, that asked for last left out. */
  readonly cogs: number;
}

interface Rest {
  readonly cog: number;
  readonly start: number;
  readonly end: number;
}

/**
 * Finds where gear records are missing: between one and the next the chain rests on cog after cog, up to three and more from the last one asked for.
 * A shifter whose battery or link fails leaves the last gear standing, and the rest of the ride would be unasked shifts.
 */
export function missingRecords(
  { log, commands }: BikeRide,
  decoded: DecodedGears,
  model: GearModel,
): readonly MissingRecords[] {
  const rests = restsOf(decoded, model);
  const found: MissingRecords[] = [];
  for (let i = 0; i < commands.timeS.length; i++) {
    const asked = commands.cog[i];
    const recordedS = commands.timeS[i];
    let next = i + 1;
    while (next < commands.timeS.length && commands.cog[next] === asked) next++;
    const toS = commands.timeS[next] ?? Number.POSITIVE_INFINITY;
    i = next - 1;
    // where no record names the ring, it is a ring that was taken for another
    if (asked < 0 || commands.ring[i] < 0) continue;
    const within = rests.filter(({ start, end }) => log.timeS[start] >= recordedS && log.timeS[end - 1] < toS);
    const elsewhere = within.filter(({ cog }) => cog !== asked);
    const cogs = new Set(elsewhere.map(({ cog }) => cog)).size;
    if (cogs < LEAST_COGS || !elsewhere.some(({ cog }) => Math.abs(cog - asked) >= FAR_COGS)) continue;
    const fromS = Math.max(log.timeS[elsewhere[0].start] - ASKED_BEFORE_S, recordedS + 1);
    found.push({ fromS, toS, cogs });
  }
  return found;
}

/** The runs of records in which the chain surely drove on one cog. */
function restsOf(
  { cog, ring, cogProbability, driving, logDevelopment, deviation }: DecodedGears,
  model: GearModel,
): Rest[] {
  const isSure = (i: number): boolean =>
    cog[i] >= 0 && ring[i] >= 0 && cogProbability[i] >= SURELY_ON_COG && driving[i] >= SURELY_DRIVING;
  const off = (i: number): number =>
    Math.abs(logDevelopment[i] - model.logDevelopment[ring[i] * model.cogs + cog[i]]) / deviation[i];
  const rests: Rest[] = [];
  for (let start = 0; start < cog.length; start++) {
    if (!isSure(start)) continue;
    let end = start + 1;
    while (end < cog.length && isSure(end) && cog[end] === cog[start]) end++;
    const offs = Array.from({ length: end - start }, (_, k) => off(start + k)).filter((z) => !Number.isNaN(z));
    if (offs.length >= REST_RECORDS && (median(offs) as number) < RESTS_WITHIN)
      rests.push({ cog: cog[start], start, end });
    start = end - 1;
  }
  return rests;
}

/** Says where gear records are missing; null where none are. */
export function missingRecordsWarning(missing: readonly MissingRecords[]): Warning | null {
  if (missing.length === 0) return null;
  const told = missing.map(
    ({ fromS, toS, cogs }) =>
      `over ${cogs} other cogs ${toS === Number.POSITIVE_INFINITY ? `from ${sinceStart(fromS)} on` : `from ${sinceStart(fromS)} to ${sinceStart(toS)}`}`,
  );
  return {
    code: gearRecordsMissing,
    message: `No gear record names a change, but the chain went ${listed(told)} (time since the start): records are missing there, as where the battery or the link of the shifter fails. Shifts made then are not judged. Charge and pair what records the gears.`,
  };
}
