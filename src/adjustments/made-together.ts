/** As much of a comparison as tells whether two adjustments were made with no judged shift between. */
interface Compared {
  readonly sharedPeriod: boolean;
  readonly before: PeriodCounts;
  readonly after: PeriodCounts;
}

interface PeriodCounts {
  readonly shifts: number;
  readonly late: number;
  readonly missed: number;
  readonly overshot: number;
  readonly ghostShifts: number;
}

const samePeriod = (a: PeriodCounts, b: PeriodCounts): boolean =>
  (['shifts', 'late', 'missed', 'overshot', 'ghostShifts'] as const).every((key) => a[key] === b[key]);

/** True for two adjustments, or the same one twice, with no judged shift between: they have one before and one after. */
export const isTogether = (a: Compared, b: Compared): boolean =>
  a === b || (a.sharedPeriod && b.sharedPeriod && samePeriod(a.before, b.before) && samePeriod(a.after, b.after));

/** Adjustments in order of time, those with no judged shift between in one list. */
export function madeTogether<T extends Compared>(adjustments: readonly T[]): T[][] {
  const groups: T[][] = [];
  for (const one of adjustments) {
    const last = groups.at(-1);
    if (last && isTogether(last[0], one)) last.push(one);
    else groups.push([one]);
  }
  return groups;
}
