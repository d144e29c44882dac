import type { EvidenceKind } from '../gear-trace/gear-trace.ts';
import type { RideEvents } from '../shifts/ride-events.ts';
import type { RideReport } from './ride-report-schema.ts';

/** What is kept of a judged ride to draw conclusions from: all but its columns. */
export interface RideFindings {
  /** Unix milliseconds; a moment of 1970 where the log has no clock. */
  readonly startMs: number;
  readonly durationS: number;
  readonly evidence: EvidenceKind;
  readonly events: RideEvents;
  readonly report: RideReport;
}
