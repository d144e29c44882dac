import { turningWays } from '../../src/adjustments/turning-words.ts';
import { ridesThatCount } from '../../src/report/rides-that-count.ts';
import type { BikeDetail } from '../api/answers.ts';

/** Which way the next step turns a parameter, and since when it says so. */
export interface TurningAdvice {
  readonly parameter: string;
  readonly sense: 1 | -1;
  /** End of the last ride that it rests on, Unix milliseconds. */
  readonly sinceMs: number;
}

/** What the report's next step asks to be turned; null where it turns nothing, or either way may be right. */
export function turningAdvice(report: BikeDetail['report']): TurningAdvice | null {
  if (!report) return null;
  const { parameter, sense } = report.diagnosis.suggestion;
  const ends = ridesThatCount(report).map(({ start, durationS }) => Date.parse(start) + durationS * 1000);
  return sense ? { parameter, sense, sinceMs: Math.max(Number.NEGATIVE_INFINITY, ...ends) } : null;
}

/** As much of an entry as tells whether it follows the advice. */
interface Turned {
  readonly at: string;
  readonly parameter: string;
  readonly amount: number | null;
}

/**
 * What to ask before an entry is logged that goes against the advice; null where it does not. What was done before the last ride can have
 * followed no advice that rests on it.
 *
 * @example 'The next step asks for clockwise; this says anticlockwise.'
 */
export function againstAdvice({ at, parameter, amount }: Turned, advice: TurningAdvice | null): string | null {
  const ways = turningWays(parameter);
  if (!advice || !ways || !amount || advice.parameter !== parameter || Date.parse(at) < advice.sinceMs) return null;
  if (Math.sign(amount) === advice.sense) return null;
  const [asked, done] = advice.sense > 0 ? [ways.plus, ways.minus] : [ways.minus, ways.plus];
  return `The next step asks for ${asked}; this says ${done}.`;
}
