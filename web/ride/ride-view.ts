import { counted } from '../../src/numeric/counted.ts';
import type { BikeDetail, RideColumns, RideDetail } from '../api/answers.ts';
import { getBike } from '../api/bikes.ts';
import { type Change, onChange } from '../api/changes.ts';
import { getColumns, getRide } from '../api/rides.ts';
import { fill, make } from '../dom/make.ts';
import { loadInto } from '../page/load-into.ts';
import { namePage } from '../page/name-page.ts';
import { soon } from '../page/soon.ts';
import { reopen } from '../router/go.ts';
import type { View } from '../router/router.ts';
import { dayAndTime } from '../words/dates.ts';
import { makeRideEvents } from './ride-events.ts';
import { rideHead } from './ride-head.ts';
import { rideSentence } from './ride-sentence.ts';

interface Answers {
  readonly ride: RideDetail;
  readonly columns: RideColumns | null;
  readonly bike: BikeDetail | null;
}

/** True for changes of this ride, and for those that may be anything. */
const isOf = ({ rideId, bikeId }: Change, wanted: string): boolean => rideId === wanted || (!rideId && !bikeId);

/** Said instead of a timeline while there is none. */
function notReady(ride: RideDetail): HTMLElement {
  const failed = ride.status === 'failed';
  return make(
    'div',
    { class: failed ? 'notice is-error' : 'notice' },
    make('h2', {}, failed ? 'This file could not be read' : 'Still being worked through'),
    make(
      'p',
      {},
      failed ? (ride.error?.message ?? 'No reason was given.') : 'The timeline stands here as soon as it is done.',
    ),
  );
}

/** One ride: what happened in it, its timeline, and each event in detail. */
export const rideView: View = ({ place, parts, query, signal }) => {
  namePage('Ride');
  const { rideId } = parts;
  const load = async (): Promise<Answers> => {
    const ride = await getRide(rideId, signal);
    const [columns, bike] = await Promise.all([
      ride.report ? getColumns(rideId, signal) : null,
      ride.bikeId ? getBike(ride.bikeId, signal).catch(() => null) : null,
    ]);
    return { ride, columns, bike };
  };
  const show = ({ ride, columns, bike }: Answers): void => {
    namePage(ride.start ? `Ride of ${dayAndTime(ride.start)}` : ride.file);
    const counts = make('p', { class: 'lead is-strong' });
    const warnings = make(
      'ul',
      { class: 'remarks' },
      ...ride.warnings.map(({ message }) => make('li', { class: 'remark' }, message)),
    );
    if (!columns || !ride.report) {
      fill(place, rideHead(ride, bike, counts), warnings, notReady(ride));
      const again = soon(async () => {
        const answers = await load();
        if (answers.columns) reopen();
      }, signal);
      onChange((change) => isOf(change, rideId) && again(), signal);
      return;
    }
    const say = (fresh: RideDetail, report: NonNullable<RideDetail['report']>): void => {
      counts.textContent = rideSentence(fresh.counts ?? report.counts);
    };
    const refresh = async (): Promise<void> => {
      const fresh = await getRide(rideId, signal);
      if (!fresh.report) return;
      say(fresh, fresh.report);
      events.take(fresh.report);
    };
    const opened = query.get('event');
    const events = makeRideEvents({ ride, report: ride.report, columns, opened, onJudged: refresh, signal });
    say(ride, ride.report);
    const refreshSoon = soon(refresh, signal);
    onChange((change) => isOf(change, rideId) && refreshSoon(), signal);
    fill(
      place,
      rideHead(ride, bike, counts),
      warnings.childElementCount > 0 &&
        make(
          'details',
          { class: 'warnings' },
          make('summary', {}, `${counted(warnings.childElementCount, 'remark')} on the records`),
          warnings,
        ),
      events.elements,
    );
  };
  loadInto(place, 'the ride', signal, load, show);
};
