import { ascending, descending } from 'd3-array';
import { troubleToOrderBy } from '../../src/report/state/trouble-to-order-by.ts';
import type { BikeSummary } from '../api/answers.ts';
import { compareNames } from '../words/bikes-by-name.ts';
import { isSetAside } from '../words/set-aside-words.ts';

const isUndated = ({ lastRideAt }: BikeSummary): boolean => lastRideAt === null;
const lastRide = ({ lastRideAt }: BikeSummary): number => (lastRideAt === null ? 0 : Date.parse(lastRideAt));
const trouble = ({ state }: BikeSummary): number => troubleToOrderBy(state) ?? -1;

/** Nobody knows when a bike without a dated ride was ridden: it stands last, whichever way the days go. */
const undatedLast = (a: BikeSummary, b: BikeSummary): number => Number(isUndated(a)) - Number(isUndated(b));
const undatedWords = (bikes: readonly BikeSummary[]): string =>
  bikes.some(isUndated) ? ' Bikes without a dated ride stand last.' : '';

interface Order {
  readonly label: string;
  /** Says over the list how it stands. */
  readonly lead: (bikes: readonly BikeSummary[]) => string;
  readonly compare: (a: BikeSummary, b: BikeSummary) => number;
}

const orders = {
  need: {
    label: 'Need',
    lead: (bikes) =>
      `What can hurt stands first, then ${bikes.some(isSetAside) ? 'what is set aside for the workshop, then ' : ''}the one that needs a hand most.`,
    compare: () => 0,
  },
  name: { label: 'Name', lead: () => 'In order of name.', compare: compareNames },
  ridden: {
    label: 'Last ride',
    lead: (bikes) => `The one that was ridden last stands first.${undatedWords(bikes)}`,
    compare: (a, b) => undatedLast(a, b) || descending(lastRide(a), lastRide(b)),
  },
  resting: {
    label: 'Longest not ridden',
    lead: (bikes) => `The one that was longest not ridden stands first.${undatedWords(bikes)}`,
    compare: (a, b) => undatedLast(a, b) || ascending(lastRide(a), lastRide(b)),
  },
  trouble: {
    label: 'Trouble',
    lead: () =>
      'The one whose shifts surely go wrong most often stands first, by the low end of its 95\u00a0% interval; of fewer than ten shifts those wanting count as clean, of a worn bike every skip as one more that went wrong.',
    compare: (a, b) => descending(trouble(a), trouble(b)),
  },
} satisfies Record<string, Order>;

/** In which order the bikes stand. */
export type RowOrder = keyof typeof orders;

/** Every order with its words, the server's own first. */
export const rowOrders = Object.entries(orders).map(([key, { label }]) => ({ key: key as RowOrder, label }));

/** The order that an address asks for; else that of need. */
export const orderOf = (key: string | null): RowOrder => (rowOrders.find((one) => one.key === key) ?? rowOrders[0]).key;

/** Says over the list in which order it stands. */
export const leadOf = (order: RowOrder, bikes: readonly BikeSummary[]): string => orders[order].lead(bikes);

/** The bikes in an order. The server sends them by need, and those that are alike in another order stay so. */
export const inOrder = (bikes: readonly BikeSummary[], order: RowOrder): BikeSummary[] =>
  [...bikes].sort(orders[order].compare);
