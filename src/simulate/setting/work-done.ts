/** What can be turned or replaced between rides, with the unit it is counted in, as riders write it in their adjustments file. */
export const workUnits = {
  'cable-tension': 'clicks',
  'index-offset': 'steps',
  'low-limit': 'turns',
  'high-limit': 'turns',
  'pulley-gap': 'turns',
  hanger: 'done',
  'cable-and-housing': 'done',
  chain: 'done',
  cassette: 'done',
  wheel: 'done',
} as const;

/** One of the things that can be turned or replaced. */
export type WorkParameter = keyof typeof workUnits;

/** One piece of work on the bike, done after ride `afterRide` (0 = before the first one, 1 = after the first). */
export interface WorkDone {
  readonly afterRide: number;
  readonly parameter: WorkParameter;
  /** In the parameter's unit; null where the part is aligned or replaced. */
  readonly amount: number | null;
  readonly note?: string;
}
