import type { TroubleCount } from '../../adjustments/compare-rates.ts';
import { figure } from '../../numeric/figure.ts';
import { wilsonInterval } from '../../numeric/wilson-interval.ts';
import type { Direction } from '../../shifts/ride-events.ts';

interface Tally {
  readonly late: number;
  readonly missed: number;
  readonly overshot: number;
  readonly shifts: number;
}

/** As much of an adjustment's comparison as tells each direction by itself: also one from a report. */
interface Compared {
  readonly cogs: readonly { readonly direction: Direction; readonly before: Tally; readonly after: Tally }[];
}

/** One direction before an adjustment and since. */
interface OneWay {
  readonly direction: Direction;
  readonly before: TroubleCount;
  readonly since: TroubleCount;
}

/** Shifts one way that are cured since an adjustment, and those the other way that go on failing. */
interface OneWayCured {
  readonly cured: OneWay;
  readonly failing: OneWay;
}

const range = ({ trouble, shifts }: TroubleCount) => wilsonInterval(trouble, shifts);

function oneWay({ cogs }: Compared, direction: Direction): OneWay {
  const count = (when: 'before' | 'after'): TroubleCount =>
    cogs
      .filter((row) => row.direction === direction)
      .map((row) => row[when])
      .reduce(
        (sum, { late, missed, overshot, shifts }) => ({
          trouble: sum.trouble + late + missed + overshot,
          shifts: sum.shifts + shifts,
        }),
        { trouble: 0, shifts: 0 },
      );
  return { direction, before: count('before'), since: count('after') };
}

/** Set where shifts one way fail plainly less often since, and more often the other way than the cured way: "as they did" would be untrue. Null otherwise. */
export function oneWayCured(made: Compared): OneWayCured | null {
  const ways = [oneWay(made, 'to-larger'), oneWay(made, 'to-smaller')];
  const cured = ways.find(({ before, since }) => range(since).high < range(before).low);
  const failing = ways.find((way) => way !== cured);
  if (!cured || !failing) return null;
  const fails =
    range(failing.since).low > range(cured.since).low && range(failing.since).high >= range(failing.before).low;
  return fails && cured.since.trouble <= 1 ? { cured, failing } : null;
}

/** What a direction is called within a sentence. */
export const wayWords = ({ direction }: OneWay): string =>
  `to ${direction === 'to-larger' ? 'larger' : 'smaller'} cogs`;

/** "33 of 291 went wrong before, 0 of 103 since" */
export const wayCounts = ({ before, since }: OneWay): string =>
  `${figure(before.trouble)} of ${figure(before.shifts)} went wrong before, ${figure(since.trouble)} of ${figure(since.shifts)} since`;
