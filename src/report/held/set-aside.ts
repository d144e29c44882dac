import type { Adjustment } from '../../adjustments/adjustment.ts';
import type { Bike } from '../../drivetrain/bike.ts';
import type { Warning } from '../../errors/warning.ts';
import { moreGears, otherCogs, showsItsCogs } from '../../gear-trace/belonging/another-bike.ts';
import { cogMissing } from '../../gear-trace/belonging/cog-missing.ts';
import { recordedTeethDiffer, teethDiffer } from '../../gear-trace/disagreement/gear-warnings.ts';
import { otherSteps } from '../../gear-trace/disagreement/other-steps.ts';
import { rolloutDiffers, speedUnitDoubtful } from '../../gear-trace/disagreement/rollout-warning.ts';
import { utcDay } from '../../numeric/moment-words.ts';
import { percent } from '../../numeric/percent.ts';
import type { Report } from '../report-schema.ts';
import type { RideReport } from '../ride-report-schema.ts';
import { type CogOff, cogOff, sizeWord } from './cog-off.ts';
import { otherCassette } from './other-cassette.ts';
import { otherCogsShown } from './other-cogs-shown.ts';

/** Why nothing is concluded from a ride's shifts, though the ride is the bike's and what it lost counts. */
export type SetAside =
  | { readonly code: 'speed-unit' }
  | { readonly code: 'other-cogs' }
  /** `misfit`: how far the gears lie beside the bike's, as a share; absent where the ride says so itself. */
  | { readonly code: 'other-steps'; readonly misfit?: number }
  | ({ readonly code: 'one-cog-off' } & CogOff)
  | { readonly code: 'another-cassette'; readonly changedAt: string };

/** What a bike's rides are held against. */
export interface BikeAsDescribed {
  readonly bike: Bike;
  readonly bikeSource: Report['bikeSource'];
  readonly adjustments: readonly Adjustment[];
}

/** Why the shifts of each ride of a bike are not weighed; null where they are. */
export function setAside(
  rides: readonly RideReport[],
  { bike, bikeSource, adjustments }: BikeAsDescribed,
): (SetAside | null)[] {
  const changed = otherCassette(rides, adjustments);
  const off = cogOff(rides, bike, bikeSource);
  return rides.map((ride, i) => {
    const { warnings, measured } = ride;
    const changedAt = changed[i];
    if (changedAt) return { code: 'another-cassette', changedAt };
    const says = (wanted: string): boolean => warnings.some(({ code }) => code === wanted);
    if (says(speedUnitDoubtful)) return { code: 'speed-unit' };
    // beside rides that do name the bike's cogs it is another bike's, and left out before this is asked; slips of the recorder spoil nothing
    if (says(otherCogs) && !showsItsCogs(bike, measured)) return { code: 'other-cogs' };
    if (says(cogMissing)) return { code: 'other-cogs' };
    if (off[i]) return { code: 'one-cog-off', ...off[i] };
    if (says(otherSteps)) return { code: 'other-steps' };
    const misfit = otherCogsShown(ride, bike);
    return misfit === null ? null : { code: 'other-steps', misfit };
  });
}

/** What is noted of such a ride without knowing why, and said better with it. */
const explained: Readonly<Record<SetAside['code'], readonly string[]>> = {
  'speed-unit': [],
  'other-cogs': [rolloutDiffers, teethDiffer, otherSteps],
  'other-steps': [rolloutDiffers, teethDiffer],
  'one-cog-off': [rolloutDiffers, teethDiffer, otherSteps],
  'another-cassette': [rolloutDiffers, teethDiffer, otherSteps, recordedTeethDiffer, otherCogs, moreGears],
};

/** The ride with a warning why its shifts are not weighed, in place of those that this explains. */
export function warnOfSetAside<Ride extends RideReport>(ride: Ride, why: SetAside): Ride {
  const others = ride.warnings.filter(({ code }) => !explained[why.code].includes(code));
  const warning = warningOf(why);
  return { ...ride, warnings: warning ? [warning, ...others] : others };
}

const NOT_WEIGHED = 'Its shifts are listed but not weighed.';

/** Null where the ride says so itself. */
function warningOf(why: SetAside): Warning | null {
  if (why.code === 'speed-unit' || why.code === 'other-cogs') return null;
  if (why.code === 'other-steps')
    return why.misfit === undefined
      ? null
      : {
          code: otherSteps,
          message: `Neither what this ride shows nor what its gear records name are the cogs that the bike as described has: its gears lie ${percent(why.misfit)} beside them in the mean. ${NOT_WEIGHED}`,
        };
  if (why.code === 'another-cassette')
    return {
      code: why.code,
      message: `The cassette was changed on ${utcDay(why.changedAt)}, and this ride was on the other one: its gear records name cogs that the bike as described does not have. ${NOT_WEIGHED}`,
    };
  const { cogs, rolloutMm, askedRolloutMm } = why;
  return {
    code: why.code,
    message: `All ride long the chain stood one cog ${sizeWord(cogs)} than the one asked for: so the gears fit a rollout of ${Math.round(rolloutMm)} mm, as on the bike's own wheel; on the cogs asked for it would be ${Math.round(askedRolloutMm)} mm, and their steps fit worse. ${NOT_WEIGHED}`,
  };
}
