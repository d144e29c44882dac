import type { Bike } from '../../drivetrain/bike.ts';
import type { Warning } from '../../errors/warning.ts';
import { andOthers } from '../../numeric/and-others.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { recordedGears } from '../commands/recorded-gears.ts';
import { belongingLimits } from './belonging-limits.ts';
import { cogsNamedAlike, ringsNamedAlike } from './named-alike.ts';
import { rungsOf, shareOnGears } from './share-on-gears.ts';

/** Code of the note that rides do not go together, and of the warning of each of them. */
export const ridesApartCode = 'rides-apart' as const;
const limits = belongingLimits.together;

/** A drivetrain that was guessed and the ride that shows it. `rolloutMm` is NaN where it is not known. */
export interface GuessedFrom {
  readonly bike: Bike;
  readonly rolloutMm: number;
  readonly ride: RideLog;
}

/** The rides that do not look like rides of the bike that the guess is of: other teeth recorded, or another ladder of developments. */
export function ridesApart(logs: readonly RideLog[], from: GuessedFrom): RideLog[] {
  const told = recordedGears(from.ride.gearRecords);
  return logs.filter((log) => {
    if (log === from.ride) return false;
    const named = recordedGears(log.gearRecords);
    const cogs = cogsNamedAlike(named.rear, told.rear);
    if (cogs < limits.teeth || ringsNamedAlike(named.front, told.front) < limits.teeth) return true;
    return Number.isNaN(cogs) && shareOnGears(rungsOf(log), from.bike, from.rolloutMm, limits) < limits.steady;
  });
}

/** So many rides are named. */
const MOST_NAMED = 3;

/** Says that rides do not go together. */
export function apartNote(apart: readonly RideLog[], { ride }: GuessedFrom): Warning {
  const files = apart.map(({ file }) => file);
  return {
    code: ridesApartCode,
    message: `These rides do not look like those of one bike: the gears of ${andOthers(MOST_NAMED, files)} are not those of ${ride.file}. Give the rides of each bike by themselves.`,
  };
}

/** True where the notes of a bike say so. */
export const areApart = (notes: readonly Pick<Warning, 'code'>[]): boolean =>
  notes.some(({ code }) => code === ridesApartCode);
