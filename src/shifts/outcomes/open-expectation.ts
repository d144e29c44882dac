import type { OutcomeProbability } from '../ride-events.ts';

/** What is expected of a shift of which nothing is known beforehand: every outcome as likely as another. */
export const openExpectation: OutcomeProbability = { clean: 0.25, late: 0.25, missed: 0.25, overshot: 0.25 };
