import { group } from 'd3-array';
import { counted } from '../../src/numeric/counted.ts';
import type { BikeDetail, RideInShort, RideSummary } from '../api/answers.ts';
import { make } from '../dom/make.ts';
import { dayAndTime, inOwnZone, isDated } from '../words/dates.ts';
import { rideDoubts } from '../words/ride-doubts.ts';

/** As much of a ride as remarks on it need. */
type RemarkedRide = Pick<RideInShort, 'file' | 'start' | 'warnings'>;

/** What a bike's rides are put in doubt by. */
export interface RideRemark {
  readonly message: string;
  /** The newest ride that the message stands for, word for word, and how many others there are. */
  readonly ride: RemarkedRide;
  readonly others: number;
  /** Rides that the like is said of, with figures of their own, and that are not listed. */
  readonly further: number;
}

/** So many different messages of one kind are listed, of the newest rides. */
const MOST_ALIKE = 3;

/** Gathers the remarks that put the rides of a report in doubt, by their kind; rides with figures of their own each keep theirs. */
export function gatherRemarks(rides: readonly RemarkedRide[]): RideRemark[] {
  const all = rides.flatMap((ride) => rideDoubts(ride.warnings).map((warning) => ({ ...warning, ride })));
  return [...group(all, ({ code }) => code).values()].flatMap((alike) => {
    const same = [...group(alike.toReversed(), ({ message }) => message)];
    return same.slice(0, MOST_ALIKE).map(([message, of], i) => ({
      message,
      ride: of[0].ride,
      others: new Set(of.map(({ ride }) => ride)).size - 1,
      further:
        i === MOST_ALIKE - 1
          ? new Set(same.slice(MOST_ALIKE).flatMap(([, more]) => more.map(({ ride }) => ride))).size
          : 0,
    }));
  });
}

/** True where a ride of a report is that of the list. */
export const isOf = (ride: Pick<RideInShort, 'file' | 'start'>, { file, start }: RideSummary): boolean =>
  file === ride.file && (start === null ? !isDated(ride.start) : Date.parse(start) === Date.parse(ride.start));

const furtherWords = (further: number): string =>
  `The like is said of ${counted(further, 'further ride')}, each with its own figures.`;

/** The remarks as a list, each with a link to its ride where that is among `listed`; null where there are none. */
export function rideRemarks({ report }: BikeDetail, listed: readonly RideSummary[]): HTMLElement | null {
  const remarks = gatherRemarks(report?.rides ?? []);
  if (remarks.length === 0) return null;
  const item = ({ message, ride, others, further }: RideRemark): HTMLElement => {
    const name = isDated(ride.start) ? dayAndTime(ride.start) : ride.file;
    const found = listed.find((one) => isOf(ride, one));
    return make(
      'li',
      { class: 'remark' },
      make('strong', {}, found ? make('a', { href: `/rides/${found.id}` }, name) : name),
      others > 0 && ` and ${counted(others, 'other ride')}`,
      `: ${isDated(ride.start) ? inOwnZone(message, [ride.start]) : message}`,
      further > 0 && ` ${furtherWords(further)}`,
    );
  };
  return make('ul', { class: 'remarks', 'aria-label': 'What puts rides in doubt' }, ...remarks.map(item));
}
