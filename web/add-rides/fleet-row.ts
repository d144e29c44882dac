import { sum } from 'd3-array';
import { counted } from '../../src/numeric/counted.ts';
import { listed } from '../../src/numeric/listed.ts';
import { make } from '../dom/make.ts';
import { icon } from '../page/icons.ts';
import { saidOfFile } from '../words/said-of-file.ts';
import { type FleetBike, type LeftOutFolder, leftOutLogs } from './fleet.ts';
import type { SentBike } from './fleet-send.ts';

/** How a folder stands: not sent yet, sent, or not taken and why. */
export type FolderStatus =
  | { readonly step: 'waiting' }
  | { readonly step: 'sending' }
  | { readonly step: 'sent'; readonly sent: SentBike; readonly settled: ReadonlyMap<string, SettledRide> }
  | { readonly step: 'refused'; readonly why: string };

/** A ride on which no more work is done. */
export interface SettledRide {
  readonly file: string;
  readonly failed: string | null;
}

/** Rides of a folder on which there is work to do, and on how many it is done. */
export function ridesOf(status: FolderStatus): { readonly taken: number; readonly settled: number } {
  if (status.step !== 'sent') return { taken: 0, settled: 0 };
  return {
    taken: status.sent.rides.filter(({ status: one }) => one === 'queued').length,
    settled: status.settled.size,
  };
}

/** How many rides were here already, and how many files are told as not taken, in folders that were sent. */
export function filesTold(
  bikes: readonly FleetBike[],
  all: readonly FolderStatus[],
): { readonly known: number; readonly faulty: number } {
  const sent = all.filter((status) => status.step === 'sent');
  return {
    known: sum(sent, ({ sent: { rides } }) => rides.filter(isKnown).length),
    faulty: all.reduce((sum, state, i) => sum + (state.step === 'sent' ? faultsOf(bikes[i], state).length : 0), 0),
  };
}

const isKnown = ({ status }: SentBike['rides'][number]): boolean => status === 'duplicate';

/** What in a folder was not taken, file by file. */
function faultsOf(bike: FleetBike, status: FolderStatus): string[] {
  const leftOut = leftOutLogs(bike.adjustments);
  if (status.step === 'refused') return [status.why, ...leftOut];
  if (status.step !== 'sent') return leftOut;
  const { rides, adjustments } = status.sent;
  const said = ({ name, message = 'could not be read' }: { name: string; message?: string }): string =>
    `${name}: ${saidOfFile(name, message)}`;
  return [
    ...leftOut,
    ...rides.flatMap((ride) => (ride.status === 'refused' ? [said(ride)] : [])),
    ...adjustments.flatMap((log) => (log.status === 'refused' ? [said(log)] : [])),
    ...[...status.settled.values()].flatMap(({ file, failed }) =>
      failed === null ? [] : [said({ name: file, message: failed })],
    ),
  ];
}

const stepWords = { waiting: 'waiting', sending: 'being sent', refused: 'not taken' } as const;

/** What became of a folder, in a sentence without an end. */
function outcome({ here }: FleetBike, status: FolderStatus): string {
  if (status.step !== 'sent') return stepWords[status.step];
  const { bikeId, rides, adjustments } = status.sent;
  const { taken, settled } = ridesOf(status);
  const known = rides.filter(isKnown);
  if (bikeId === null) {
    const [first] = known;
    const where = first?.message ? ` ${saidOfFile(first.name, first.message)}` : '';
    return first ? `no bike made: none of its rides is new.${where}` : 'no bike made: none of its rides can be read';
  }
  const added = sum(adjustments, (log) => log.added);
  const words = [
    taken > 0 && `${settled} of ${counted(taken, 'ride')} done`,
    known.length > 0 && `${counted(known.length, 'ride')} already here`,
    added > 0 && `${counted(added, 'adjustment')} taken in`,
  ].filter((text): text is string => Boolean(text));
  const made = here ? 'here before' : 'new bike';
  return words.length > 0 ? `${made}: ${listed(words)}` : made;
}

/** One folder of a fleet: its name, its bike, and how far it has come. */
export function fleetRow(bike: FleetBike, status: FolderStatus): HTMLElement {
  const faults = faultsOf(bike, status);
  const { taken, settled } = ridesOf(status);
  const open = status.step === 'waiting' || status.step === 'sending' || settled < taken;
  const bad = status.step === 'refused' || (!open && faults.length > 0);
  const bikeId = status.step === 'sent' ? status.sent.bikeId : here(bike);
  const mark = open
    ? make('span', { class: status.step === 'waiting' ? 'dot' : 'dot is-working' })
    : icon(bad ? 'cross' : 'tick');
  return make(
    'li',
    { class: bad ? 'is-bad' : null },
    mark,
    make(
      'span',
      { class: 'file-name' },
      `${bike.folder}: `,
      bikeId === null ? bike.bike.name : make('a', { href: `/bikes/${bikeId}` }, bike.bike.name),
    ),
    make(
      'span',
      { class: 'quiet' },
      outcome(bike, status),
      ...faults.map((fault) => make('span', { class: 'fault fleet-fault' }, fault)),
    ),
  );
}

/** A folder, or a part of one, from which nothing was taken, and why. */
export const leftOutRow = ({ folder, why }: LeftOutFolder): HTMLElement =>
  make(
    'li',
    { class: 'is-bad' },
    icon('cross'),
    make('span', { class: 'file-name' }, folder),
    make('span', { class: 'quiet' }, 'left out', make('span', { class: 'fault fleet-fault' }, why)),
  );

const here = (bike: FleetBike): string | null => bike.here?.id ?? null;
