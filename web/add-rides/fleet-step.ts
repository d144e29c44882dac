import { sum } from 'd3-array';
import { counted } from '../../src/numeric/counted.ts';
import { listed } from '../../src/numeric/listed.ts';
import { upperFirst } from '../../src/numeric/upper-first.ts';
import type { ReadFile } from '../api/answers.ts';
import { type Child, listen, make } from '../dom/make.ts';
import { folded, isLong } from '../page/folded.ts';
import { drivetrainLine } from '../words/drivetrain-words.ts';
import { type Fleet, type FleetBike, leftOutLogs } from './fleet.ts';
import { understoodList } from './understood-list.ts';

/** The files of a bike that are sent: a log that is broken stays behind. */
const sent = ({ rides, adjustments }: FleetBike): number =>
  rides.length + adjustments.filter(({ fault }) => fault === null).length;

/** What a folder brings, and what in it is left out. */
function folderRead({ folder, bike, here, doubt, rides, adjustments }: FleetBike): ReadFile {
  const entries = sum(adjustments, ({ count }) => count ?? 0);
  const brings = [
    rides.length > 0 && counted(rides.length, 'ride file'),
    adjustments.some(({ fault }) => fault === null) && counted(entries, 'adjustment'),
  ].filter((text): text is string => Boolean(text));
  return {
    name: folder,
    understood: [
      `${bike.name}, ${drivetrainLine(bike)}: ${here ? 'here already, as this very bike' : 'a new bike'}`,
      brings.length > 0 ? `${listed(brings)} for it` : 'Nothing else for it',
    ],
    notUnderstood: leftOutLogs(adjustments),
    remarks: doubt === null ? [] : [doubt],
  };
}

/** What the button does: "Make 24 bikes and send 50 files". */
function goWords(bikes: readonly FleetBike[]): string {
  const fresh = bikes.filter(({ here }) => here === null).length;
  const files = sum(bikes, (bike) => sent(bike));
  const words = [fresh > 0 && `make ${counted(fresh, 'bike')}`, files > 0 && `work through ${counted(files, 'file')}`];
  const said = listed(words.filter((text): text is string => Boolean(text)));
  return upperFirst(said);
}

/** What each folder brings. Of many, those with a remark or something left out stand by themselves, and the others are folded away. */
function takenIn(folders: readonly ReadFile[]): Child {
  const plain = folders.filter(({ notUnderstood, remarks }) => notUnderstood.length + remarks.length === 0);
  const list = isLong(plain) ? understoodList(plain) : null;
  if (list === null) return understoodList(folders);
  return [
    understoodList(folders.filter((folder) => !plain.includes(folder))),
    folded('folders', `${counted(plain.length, 'folder')} without a remark`, list),
  ];
}

/** The step for several bikes at once: what each folder brings, what is left out and why, and the way on. */
export function fleetStep({ bikes, leftOut }: Fleet, start: (fleet: Fleet) => void): HTMLElement {
  const wanted = bikes.filter((bike) => bike.here === null || sent(bike) > 0);
  const broken = bikes
    .filter((bike) => !wanted.includes(bike))
    .flatMap(({ folder, adjustments }) => leftOutLogs(adjustments).map((why) => ({ folder, why })));
  const go = make('button', { type: 'button' }, goWords(wanted));
  const lacking = leftOut.map(({ folder, why }) => ({
    name: folder,
    understood: [],
    notUnderstood: [why],
    remarks: [],
  }));
  return make(
    'section',
    { class: 'add-found', 'aria-label': 'The bikes' },
    make('h2', {}, `${counted(bikes.length, 'bike')}, a folder each`),
    make('p', {}, 'As the bike file in each folder describes it. What lies in a folder goes to its bike.'),
    wanted.length > 0 &&
      make(
        'p',
        { class: 'row' },
        listen(go, { click: () => start({ bikes: wanted, leftOut: [...leftOut, ...broken] }) }),
      ),
    lacking.length > 0 && [make('h3', {}, 'Left out'), understoodList(lacking)],
    lacking.length > 0 && make('h3', {}, 'Taken in'),
    takenIn(bikes.map(folderRead)),
  );
}
