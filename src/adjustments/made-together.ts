import { group as groups } from 'd3-array';

/** As much of a comparison as tells which adjustments were made with no judged shift between. */
interface Grouped {
  readonly group: number;
}

/** True for two adjustments, or the same one twice, with no judged shift between: they have one before and one after. */
export const isTogether = (a: Grouped, b: Grouped): boolean => a.group === b.group;

/** Adjustments in order of time, those with no judged shift between in one list. */
export const madeTogether = <T extends Grouped>(adjustments: readonly T[]): T[][] => [
  ...groups(adjustments, ({ group: own }) => own).values(),
];
