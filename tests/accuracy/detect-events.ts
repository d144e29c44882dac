import { matchByTime } from './match-by-time.ts';
import { EVENT_WITHIN_S } from './matching-rules.ts';
import type { Detection } from './ride-score.ts';

/** True events set against reported ones. Indices into the two lists. */
interface Detected {
  readonly counts: Detection;
  /** True and reported index of each pair. */
  readonly pairs: readonly (readonly [number, number])[];
  readonly overlooked: readonly number[];
  /** Reported ones without a true partner, scored or not. */
  readonly unmatched: readonly number[];
}

/** Pairs true events with reported ones; only those that `scored` accepts are counted, but any may be a partner. */
export function detectEvents<T extends { readonly atS: number }, R extends { readonly timeS: number }>(
  truth: readonly T[],
  reported: readonly R[],
  scored: (event: T | R) => boolean = () => true,
): Detected {
  const partner = matchByTime(
    truth.map(({ atS }) => atS),
    reported.map(({ timeS }) => timeS),
    EVENT_WITHIN_S,
  );
  const pairs = [...partner].flatMap((r, t) => (r >= 0 ? [[t, r] as const] : []));
  const matched = new Set(pairs.map(([, r]) => r));
  const overlooked = truth.flatMap((event, t) => (scored(event) && partner[t] < 0 ? [t] : []));
  const unmatched = reported.flatMap((_, r) => (matched.has(r) ? [] : [r]));
  return {
    counts: {
      found: pairs.filter(([t]) => scored(truth[t])).length,
      overlooked: overlooked.length,
      wrong: unmatched.filter((r) => scored(reported[r])).length,
    },
    pairs,
    overlooked,
    unmatched,
  };
}
