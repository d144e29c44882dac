import { counted } from '../../src/numeric/counted.ts';
import { figure } from '../../src/numeric/figure.ts';
import { seenCounts } from '../../src/report/seen-counts.ts';
import { evidenceLabels } from '../../src/report/words/event-words.ts';
import type { RideInShort, RideSummary } from '../api/answers.ts';
import { removeRide } from '../api/rides.ts';
import { announce } from '../dom/announce.ts';
import { make } from '../dom/make.ts';
import { stopWhereItScrolls } from '../dom/stop-where-it-scrolls.ts';
import { ask } from '../page/ask.ts';
import { attempt } from '../page/attempt.ts';
import { iconButton } from '../page/icon-button.ts';
import { isCutCopy } from '../words/cut-copy.ts';
import { dayAndTime } from '../words/dates.ts';
import { duration, percentFigure } from '../words/numbers.ts';
import { saidOfFile } from '../words/said-of-file.ts';
import { ownZoneSentence, zoneRemark } from '../words/time-zone.ts';
import type { BikePage } from './bike-page.ts';
import { isOf, rideRemarks } from './ride-remarks.ts';

const rideName = (ride: RideSummary): string => (ride.start ? dayAndTime(ride.start) : ride.file);

/** How a ride stands where it does not simply count; null: it does. */
function standing(ride: RideSummary, leftOut: readonly RideInShort[]): string | null {
  if (ride.status === 'failed') return ride.error ? saidOfFile(ride.file, ride.error.message) : 'Could not be read.';
  if (ride.status === 'queued') return 'Waiting';
  if (ride.status === 'analysing') return 'Being worked through …';
  if (isCutCopy(ride)) return 'Not counted: another ride holds all of it';
  return leftOut.some((one) => isOf(one, ride)) ? 'Not counted: it looks like another bike’s' : null;
}

type Numbers = Record<'shifts' | 'judged' | 'trouble' | 'ghostShifts' | 'chainDrops' | 'skips', number | null>;

const nothingSeen: Numbers = {
  shifts: null,
  judged: null,
  trouble: null,
  ghostShifts: null,
  chainDrops: null,
  skips: null,
};

/** What a ride's records can show of each thing counted; null where they cannot, or are not worked through. */
function seen({ counts, evidence, warnings }: RideSummary): Numbers {
  if (!counts || !evidence) return nothingSeen;
  const { judged, trouble, ghostShifts, chainDrops, skips } = seenCounts({
    counts,
    evidence,
    warnings: warnings ?? [],
  });
  return { shifts: counts.shifts, judged, trouble, ghostShifts, chainDrops, skips };
}

/** The share of a ride's judged shifts that went wrong, by which rides of any length compare; null where none did. */
const troubleShare = ({ trouble, judged }: Numbers): string | null =>
  trouble && judged ? percentFigure(trouble / judged) : null;

/** What the columns of numbers say, where there is no room for them. */
function inShort(numbers: Numbers): string | null {
  const { shifts, trouble, ghostShifts, chainDrops, skips } = numbers;
  const share = troubleShare(numbers);
  if (shifts === null) return null;
  const judged = trouble === null ? 'none judged' : `${figure(trouble)} in trouble${share ? ` (${share})` : ''}`;
  return [
    shifts === 0 ? 'no shifts recorded' : `${counted(shifts, 'shift')}, ${judged}`,
    ghostShifts && counted(ghostShifts, 'ghost shift'),
    chainDrops && counted(chainDrops, 'chain drop'),
    skips && counted(skips, 'skip'),
  ]
    .filter(Boolean)
    .join(', ');
}

interface TablePlan {
  readonly rides: readonly RideSummary[];
  /** Those of the bike's report that do not count. */
  readonly leftOut: readonly RideInShort[];
  readonly remove: (ride: RideSummary) => void;
}

function row(ride: RideSummary, { leftOut, remove }: TablePlan): HTMLElement {
  const numbers = seen(ride);
  const number = (value: number | null, share: string | null = null): HTMLElement =>
    make(
      'td',
      { class: 'number' },
      value === null ? '–' : figure(value),
      share && make('span', { class: 'quiet' }, ` (${share})`),
    );
  const stands = standing(ride, leftOut);
  const brief = inShort(numbers);
  const zone = zoneRemark(ride);
  const failed = ride.status === 'failed';
  return make(
    'tr',
    {},
    make(
      'th',
      { scope: 'row' },
      failed
        ? rideName(ride)
        : make('a', { href: `/rides/${ride.id}`, 'data-keep': `ride-${ride.id}` }, rideName(ride)),
      ride.start !== null && make('span', { class: 'quiet file-name' }, ride.file),
      zone && make('span', { class: 'quiet file-name' }, zone),
      brief && make('span', { class: 'only-narrow' }, brief),
      stands && make('span', { class: failed ? 'only-narrow fault' : 'only-narrow' }, stands),
    ),
    make('td', { class: 'number' }, duration(ride.durationS)),
    number(numbers.shifts),
    number(numbers.trouble, troubleShare(numbers)),
    number(numbers.ghostShifts),
    number(numbers.chainDrops),
    number(numbers.skips),
    make('td', { class: failed ? 'fault' : null }, stands ?? (ride.evidence && evidenceLabels[ride.evidence])),
    make(
      'td',
      { class: 'tools' },
      iconButton({
        name: 'remove',
        words: `Remove the ride of ${rideName(ride)}`,
        keep: `remove-ride-${ride.id}`,
        click: () => remove(ride),
      }),
    ),
  );
}

const columns: readonly { readonly head: string; readonly isNumber: boolean }[] = [
  { head: 'Ride', isNumber: false },
  { head: 'Length', isNumber: true },
  { head: 'Shifts', isNumber: true },
  { head: 'In trouble', isNumber: true },
  { head: 'Ghost shifts', isNumber: true },
  { head: 'Chain drops', isNumber: true },
  { head: 'Skips', isNumber: true },
  { head: 'Records', isNumber: false },
];

function rideTable(plan: TablePlan): HTMLElement {
  const heads = columns.map(({ head, isNumber }) =>
    make('th', { scope: 'col', class: isNumber ? 'number' : null }, head),
  );
  return stopWhereItScrolls(
    make(
      'div',
      { class: 'panel scrolls is-tall', role: 'region', 'aria-label': 'List of rides' },
      make(
        'table',
        { class: 'rides' },
        make('thead', {}, make('tr', {}, ...heads, make('td', { class: 'tools' }))),
        make('tbody', {}, ...plan.rides.map((ride) => row(ride, plan))),
      ),
    ),
  );
}

/** The bike's rides, newest first, under what puts any of them in doubt. */
export function ridesSection({ bike, rides, allRides, refresh }: BikePage): HTMLElement {
  const remove = async (ride: RideSummary): Promise<void> => {
    const yes = await ask(
      'Remove this ride?',
      `${ride.file} is taken out of the store, and the verdict is worked out without it. Your own copy of the file is not touched.`,
      'Remove it',
    );
    if (!yes) return;
    await removeRide(ride.id);
    announce('Ride removed');
    await refresh();
  };
  const leftOut = (bike.report?.rides ?? []).filter((ride) => ride.leftOut !== null);
  return make(
    'section',
    { 'aria-labelledby': 'rides' },
    make('h2', { id: 'rides' }, 'Rides'),
    allRides > rides.length &&
      make(
        'p',
        { class: 'quiet' },
        `The newest ${rides.length} of ${counted(allRides, 'ride')}; the verdict rests on all that count.`,
      ),
    rides.some(({ start }) => start !== null) && make('p', { class: 'quiet zone' }, ownZoneSentence()),
    rideRemarks(bike, rides),
    rides.length === 0
      ? make('p', { class: 'quiet' }, 'No ride yet.')
      : rideTable({ rides, leftOut, remove: (ride) => void attempt(() => remove(ride)) }),
  );
}
