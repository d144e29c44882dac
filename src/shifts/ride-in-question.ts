import type { RideTrace } from '../gear-trace/gear-trace.ts';
import type { RideLog } from '../ride-log/ride-log.ts';
import { secondsEvidence } from './stories/seconds-evidence.ts';
import { softAfterShift } from './stories/soft-after-shift.ts';
import { type RevolutionClock, revolutionClock } from './turns/revolution-clock.ts';

/** A traced ride with all that its shifts are judged by. */
export interface RideInQuestion {
  readonly log: RideLog;
  readonly trace: RideTrace;
  /** Crank turns over time. */
  readonly clock: RevolutionClock;
  /** Log likelihood of a record at a log development, within the window of one shift. */
  readonly evidence: ReturnType<typeof secondsEvidence>;
}

/** Share of independent evidence in a record: within a window the error that its records share is weighed by itself. */
export const WINDOW_INDEPENDENCE = 0.7;

/** Makes a traced ride ready for its shifts to be judged. */
export function rideInQuestion(log: RideLog, trace: RideTrace): RideInQuestion {
  const evidence = secondsEvidence(log, trace, WINDOW_INDEPENDENCE, softAfterShift(log, trace));
  return { log, trace, clock: revolutionClock(log), evidence };
}
