import type { Adjustment } from '../../adjustments/adjustment.ts';
import type { CassetteEnd } from '../../adjustments/end-cog-count.ts';
import type { Look } from '../../adjustments/looks.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import { cassetteEnds, limitAt } from '../cassette-ends.ts';
import type { DiagnosisRide } from '../diagnosis.ts';
import { overtakes } from '../looked-for.ts';

/** What a look is set against. */
interface Since {
  readonly rides: readonly DiagnosisRide[];
  readonly adjustments: readonly Adjustment[];
  /** When a fault began suddenly, Unix milliseconds; -Infinity where none did. */
  readonly beganMs: number;
}

/** When a chain was last lost past an end, Unix milliseconds: -Infinity where none was; Infinity on a ride without a date, which may have been any time. */
export function lastLostMs(end: CassetteEnd, rides: readonly DiagnosisRide[]): number {
  const lost = rides.flatMap(({ startMs, events }) =>
    events.chainDrops
      .filter(({ side }) => side === end)
      .map(({ timeS }) => (hasClock(startMs) ? startMs + timeS * 1000 : Number.POSITIVE_INFINITY)),
  );
  return Math.max(Number.NEGATIVE_INFINITY, ...lost);
}

/**
 * The looks that need not be made again: made after the first ride, and since then nothing set the part anew, no fault began suddenly, and, at a limit
 * or the hanger that carries both, no chain was lost past that end.
 */
export function looksThatStand(looks: readonly Look[], { rides, adjustments, beganMs }: Since): Look[] {
  const firstMs = Math.min(...rides.map(({ startMs }) => startMs).filter(hasClock));
  return looks.filter(({ at, parameter }) => {
    const lookMs = Date.parse(at);
    const ends = cassetteEnds.filter((end) => parameter === 'hanger' || parameter === limitAt[end].parameter);
    const lost = ends.some((end) => lastLostMs(end, rides) >= lookMs);
    const anew = adjustments.some((one) => Date.parse(one.at) >= lookMs && overtakes(one.parameter, parameter));
    return lookMs > firstMs && lookMs > beganMs && !lost && !anew;
  });
}
