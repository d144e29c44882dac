import type { PlannedRide } from './ride-plan.ts';
import { scoreRide } from './score-ride.ts';

/** A process of its own that scores the rides it is sent, one at a time, and answers with each score. */
process.on('message', (planned: PlannedRide) => {
  process.send?.(scoreRide(planned));
});
