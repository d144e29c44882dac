import type { Adjustment } from '../../adjustments/adjustment.ts';
import { moreGears, otherCogs } from '../../gear-trace/belonging/another-bike.ts';
import { recordedTeethDiffer } from '../../gear-trace/disagreement/gear-warnings.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import type { RideReport } from '../ride-report-schema.ts';

const namingOthers: readonly string[] = [recordedTeethDiffer, otherCogs, moreGears];

/** A ride as far as it tells which cassette it was ridden on. */
type DatedRide = Pick<RideReport, 'start' | 'gearSource' | 'warnings'>;

/**
 * Tells for each ride of a bike whether it was ridden on another cassette than the one described: a change of cassette is logged, and the rides
 * on one side of it all name other cogs while none on the other side does. The moment of that change, ISO; null where it was not.
 */
export function otherCassette(rides: readonly DatedRide[], adjustments: readonly Adjustment[]): (string | null)[] {
  const changes = adjustments.filter(({ parameter }) => parameter === 'cassette').map(({ at }) => at);
  for (const at of changes) {
    const later = (ride: DatedRide): boolean => Date.parse(ride.start) >= Date.parse(at);
    const telling = rides.filter(({ start, gearSource }) => hasClock(Date.parse(start)) && gearSource === 'recorded');
    for (const after of [true, false]) {
      const side = telling.filter((ride) => later(ride) === after);
      const rest = telling.filter((ride) => later(ride) !== after);
      if (side.length === 0 || rest.length === 0) continue;
      if (side.every(namesOthers) && !rest.some(namesOthers))
        return rides.map((ride) => (side.includes(ride) ? at : null));
    }
  }
  return rides.map(() => null);
}

const namesOthers = ({ warnings }: DatedRide): boolean => warnings.some(({ code }) => namingOthers.includes(code));
