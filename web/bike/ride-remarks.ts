import { group } from 'd3-array';
import { counted } from '../../src/numeric/counted.ts';
import type { BikeDetail, RideInShort, RideSummary } from '../api/answers.ts';
import { make } from '../dom/make.ts';
import { dayAndTime, isDated } from '../words/dates.ts';
import { rideDoubts } from '../words/ride-doubts.ts';

/** As much of a ride as remarks on it need. */
type RemarkedRide = Pick<RideInShort, 'file' | 'start' | 'warnings'>;

/** What a bike's rides are put in doubt by, each once: the message for the newest ride that it is said of, and how many others there are. */
export interface RideRemark {
  readonly message: string;
  readonly ride: RemarkedRide;
  readonly others: number;
}

/** Gathers the remarks that put the rides of a report in doubt, by their kind. */
export function gatherRemarks(rides: readonly RemarkedRide[]): RideRemark[] {
  const all = rides.flatMap((ride) => rideDoubts(ride.warnings).map((warning) => ({ ...warning, ride })));
  return [...group(all, ({ code }) => code).values()].map((alike) => {
    const { message, ride } = alike[alike.length - 1];
    return { message, ride, others: new Set(alike.map((one) => one.ride)).size - 1 };
  });
}

/** True where a ride of a report is that of the list. */
export const isOf = (ride: Pick<RideInShort, 'file' | 'start'>, { file, start }: RideSummary): boolean =>
  file === ride.file && (start === null ? !isDated(ride.start) : Date.parse(start) === Date.parse(ride.start));

/** The remarks as a list, each with a link to its ride where that is among `listed`; null where there are none. */
export function rideRemarks({ report }: BikeDetail, listed: readonly RideSummary[]): HTMLElement | null {
  const remarks = gatherRemarks(report?.rides ?? []);
  if (remarks.length === 0) return null;
  const item = ({ message, ride, others }: RideRemark): HTMLElement => {
    const name = isDated(ride.start) ? dayAndTime(ride.start) : ride.file;
    const found = listed.find((one) => isOf(ride, one));
    return make(
      'li',
      { class: 'remark' },
      make('strong', {}, found ? make('a', { href: `/rides/${found.id}` }, name) : name),
      others > 0 && ` and ${counted(others, 'other ride')}`,
      `: ${message}`,
    );
  };
  return make('ul', { class: 'remarks', 'aria-label': 'What puts rides in doubt' }, ...remarks.map(item));
}
