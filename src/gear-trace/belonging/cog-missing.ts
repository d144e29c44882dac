import { pairs } from 'd3-array';
import type { Bike } from '../../drivetrain/bike.ts';
import type { Warning } from '../../errors/warning.ts';
import { counted } from '../../numeric/counted.ts';
import { listed } from '../../numeric/listed.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { recordedGears } from '../commands/recorded-gears.ts';

/** Code of the warning that the bike's description lacks a cog. */
export const cogMissing = 'cog-missing';
/** A size counts if it is named so many times, and at least this share as often as the rarer cog beside it: a slip is not (assumptions of ours). */
const NAMED = 4;
const AS_OFTEN = 0.3;

/**
 * Says so where the gear records name a cog that lies between two which the bike as described has side by side, and name those two as well: then it is none
 * of them by another count, and the description lacks it. Null where positions are recorded, which are sure.
 */
export function cogMissingWarning({ gearRecords }: RideLog, bike: Bike): Warning | null {
  const { teeth, positions } = recordedGears(gearRecords).rear;
  if (positions.length > 0) return null;
  const times = new Map<number, number>();
  for (const one of teeth) if (one > 0) times.set(one, (times.get(one) ?? 0) + 1);
  const named = (size: number): number => times.get(size) ?? 0;
  const between = pairs(bike.cassette).flatMap(([smaller, larger]) => {
    const least = Math.max(NAMED, AS_OFTEN * Math.min(named(smaller), named(larger)));
    const both = named(smaller) >= NAMED && named(larger) >= NAMED;
    return both ? [...times.keys()].filter((size) => size > smaller && size < larger && named(size) >= least) : [];
  });
  if (between.length === 0) return null;
  const cogs = between.sort((a, b) => a - b);
  return {
    code: cogMissing,
    message: `The gear records name ${cogs.length === 1 ? 'a cog' : counted(cogs.length, 'cog')} of ${listed(cogs.map(String))} teeth between cogs that they name as well and that the bike "${bike.name}" has side by side (${bike.cassette.join('-')}): its description lacks ${cogs.length === 1 ? 'it' : 'them'}. Write in every cog. The shifts of this ride are listed but not weighed.`,
  };
}
