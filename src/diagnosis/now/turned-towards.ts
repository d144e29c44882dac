import type { Adjustment } from '../../adjustments/adjustment.ts';
import { turnedInAll } from '../../adjustments/turned-in-all.ts';
import type { Cause } from '../causes.ts';

/** A fault that an adjustment can bring about: what is turned, which sign leads there, and the fault on the other side. */
interface Turnable {
  readonly parameters: readonly Adjustment['parameter'][];
  readonly sign: 1 | -1;
  readonly opposite: TurnableFault;
}

/** Faults that lie on one side of a setting, with another on its other side. */
export type TurnableFault = Exclude<Cause, 'no-fault' | 'hanger-bent' | 'cable-friction' | 'worn-drivetrain'>;

const indexing = ['cable-tension', 'index-offset'] as const;

/** Signs as in the table of adjustments: positive moves inboard, screws a stop in, widens the gap. */
const turnable: Readonly<Record<TurnableFault, Turnable>> = {
  'cable-tension-low': { parameters: indexing, sign: -1, opposite: 'cable-tension-high' },
  'cable-tension-high': { parameters: indexing, sign: 1, opposite: 'cable-tension-low' },
  'low-limit-tight': { parameters: ['low-limit'], sign: 1, opposite: 'low-limit-loose' },
  'low-limit-loose': { parameters: ['low-limit'], sign: -1, opposite: 'low-limit-tight' },
  'high-limit-tight': { parameters: ['high-limit'], sign: 1, opposite: 'high-limit-loose' },
  'high-limit-loose': { parameters: ['high-limit'], sign: -1, opposite: 'high-limit-tight' },
  'pulley-gap-small': { parameters: ['pulley-gap'], sign: -1, opposite: 'pulley-gap-large' },
  'pulley-gap-large': { parameters: ['pulley-gap'], sign: 1, opposite: 'pulley-gap-small' },
};

/** Every fault that has one on the other side of its setting. */
export const turnableFaults = Object.keys(turnable) as TurnableFault[];

/** Whether a cause lies on one side of a setting. */
export const isTurnable = (cause: Cause): cause is TurnableFault => cause in turnable;

/** The fault on the other side of the same setting; null where there is none. */
export const oppositeOf = (cause: Cause): TurnableFault | null =>
  cause in turnable ? turnable[cause as TurnableFault].opposite : null;

/** The sign of an adjustment that takes a fault away; null for one that nothing is turned for. */
export const signOfCure = (cause: Cause): 1 | -1 | null =>
  cause in turnable ? (turnable[cause as TurnableFault].sign === 1 ? -1 : 1) : null;

/** How far a setting was turned towards a fault, all in all. */
export interface Turned {
  /** Clicks, steps or turns towards the fault, more than 0. */
  readonly amount: number;
  /** Time of the latest adjustment of this setting, either way. */
  readonly lastAt: string;
  /** Whether that one went towards the fault. */
  readonly lastTowards: boolean;
}

/** What adjustments, in order of time, turned towards a fault; null where they did not, all in all. */
export function turnedTowards(
  fault: TurnableFault,
  adjustments: readonly Pick<Adjustment, 'at' | 'parameter' | 'amount'>[],
): Turned | null {
  const { parameters, sign } = turnable[fault];
  const own = adjustments.filter(({ parameter }) => parameters.includes(parameter));
  const last = own.at(-1);
  const amount = sign * turnedInAll(own);
  if (!last || amount <= 0) return null;
  return { amount, lastAt: last.at, lastTowards: sign * (last.amount ?? 0) > 0 };
}
