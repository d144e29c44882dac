import { MOST_SKIPS_UNSEEN } from '../../adjustments/skip-words.ts';
import { counted } from '../../numeric/counted.ts';
import type { Report } from '../report-schema.ts';
import { ridesThatCount } from '../rides-that-count.ts';

/**
 * Sensors that follow the gear records by so much or more (s) may hide shifts that are all slow: in simulated rides on bikes of which only some
 * shifts are slow they follow by 1.2 to 2.4 s, on those of which half of all are by 2.4 to 2.5 s. Real recorders follow by about 1 to 3 s, so it is
 * no sign by itself. An assumption of ours.
 */
const LONG_LAG_S = 2.4;

/** A chain that jams, or that comes off where the cranks hardly drive anyway: that no loss was seen is no proof that there was none. */
const SOME_DROPS_UNSEEN =
  'A chain that comes off at a crawl or while you coast, or that jams the cranks at once, leaves little or no mark in a log: if it came off, go by that. On the page (serve) you can say so on the ride, and it counts.';

/** The longest lag of the rides that count; null where none is long. */
function longLagS({ rides }: Report): number | null {
  const longest = Math.max(
    ...ridesThatCount({ rides }).map(({ sensorLagS }) => sensorLagS ?? Number.NEGATIVE_INFINITY),
  );
  return longest >= LONG_LAG_S ? longest : null;
}

/** What the logs of this report cannot tell, one sentence each. Always holds the ones that are true of any log. */
export function limitWords(report: Report): string[] {
  const of = (evidence: string): number => report.rides.filter((ride) => ride.evidence === evidence).length;
  const limits = [
    'The verdict is a likelihood worked out from logs; nobody has looked at the bike. A cracked, bent or worn part is found by eye, by hand and with a gauge.',
    'Records come about once a second. A healthy shift takes less, so single shifts are judged by crank turns with a probability, and only many shifts together are sharp.',
    'No chain moves while you coast, and legs that do not drive the wheel show no cog: shifts without at least 2 s of pedalling after them stay unjudged, and so do most that were pedalled without drive.',
    MOST_SKIPS_UNSEEN,
    SOME_DROPS_UNSEEN,
  ];
  if (of('commands-only') > 0)
    limits.push(
      `${counted(of('commands-only'), 'ride has', 'rides have')} gear records but no cadence, or no speed that shows the gears: no shift can be judged there, and a missed one only guessed at by what you did next.`,
    );
  if (of('ratio-only') > 0)
    limits.push(
      `${counted(of('ratio-only'), 'ride has', 'rides have')} no gear records: what you asked for is not known there, so no shift can be called late or missed.`,
    );
  if (of('none') > 0)
    limits.push(`${counted(of('none'), 'ride shows', 'rides show')} nothing about shifting and did not count.`);
  const lagS = longLagS(report);
  if (lagS !== null)
    limits.push(
      `If every shift is equally slow, that looks like late sensors (here they follow the gear records by up to ${lagS.toFixed(1)} s). If shifting feels slow everywhere, measure the gap between guide pulley and cogs.`,
    );
  if (report.bikeSource === 'guessed')
    limits.push('No bike file was given: teeth are guessed from the rides, and a cog never used cannot be seen.');
  return limits;
}
