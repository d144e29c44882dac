/** Distance of one wheel turn that a bicycle can have, mm: smaller and larger wheels than any sold included. */
export const ROLLOUT_MM = { least: 500, most: 3500 } as const;

/** Whether a wheel can have this rollout; false for NaN. */
export const isPossibleRollout = (rolloutMm: number): boolean =>
  rolloutMm >= ROLLOUT_MM.least && rolloutMm <= ROLLOUT_MM.most;
