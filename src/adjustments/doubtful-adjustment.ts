import type { Bike } from '../drivetrain/bike.ts';
import { isStillToCome } from '../ride-log/still-to-come.ts';
import type { Adjustment } from './adjustment.ts';

/** What is doubtful about an adjustment that is well formed, and the key it stands under. */
export interface Doubt {
  readonly key: 'parameter' | 'at';
  readonly message: string;
}

const onlyOn: Readonly<Record<string, Bike['actuation'] | undefined>> = {
  'cable-tension': 'cable',
  'cable-and-housing': 'cable',
  'index-offset': 'electronic',
} satisfies Partial<Record<Adjustment['parameter'], Bike['actuation']>>;

/** False for an amount of 0: the part was looked at or measured and found right, and nothing changed (`looksOf`). */
export const turnsAnything = ({ amount }: Pick<Adjustment, 'amount'>): boolean => amount !== 0;

/** True where a bike with this actuation has the parameter at all. */
export const hasParameter = (actuation: Bike['actuation'], parameter: string): boolean =>
  (onlyOn[parameter] ?? actuation) === actuation;

/** The actuation that the latest adjustment of a part only found with one of them speaks for; null without any. */
export const actuationOf = <Logged extends { readonly parameter: string }>(
  adjustments: readonly Logged[],
): Bike['actuation'] | null =>
  adjustments.map(({ parameter }) => onlyOn[parameter]).findLast((actuation) => actuation !== undefined) ?? null;

/**
 * The first thing about an adjustment that can hardly be meant: a part that the bike does not have, a time still to come. Null where there is none.
 *
 * @param actuation null where it is not known
 * @param nowMs Unix milliseconds
 */
export function doubtfulAdjustment(
  { at, parameter }: Pick<Adjustment, 'at' | 'parameter'>,
  actuation: Bike['actuation'] | null,
  nowMs: number,
): Doubt | null {
  if (actuation && !hasParameter(actuation, parameter))
    return {
      key: 'parameter',
      message: `a bike with ${actuation} actuation has no ${parameter}: mend the adjustment, or the bike's actuation`,
    };
  if (isStillToCome(Date.parse(at), nowMs)) return { key: 'at', message: 'the time is still to come: mend the date' };
  return null;
}
