import { evidenceWeights } from '../assumptions.ts';
import { fitOf } from '../evidence/outcome-fit.ts';
import type { PulleyRates } from '../imagined-bike/pulley-rates.ts';
import { haltLogLikelihood } from './halt-likelihood.ts';
import type { PreparedSegment } from './prepare-segments.ts';
import { rareEventsLogLikelihood } from './rare-events.ts';
import { revLogLikelihood } from './rev-likelihood.ts';
import { fillStrayReadings } from './stray-cog.ts';

const logModel = Math.log(1 - evidenceWeights.strayCell);
const logStray = Math.log(evidenceWeights.strayCell);

/**
 * Log likelihood of one segment under rates, up to terms that are the same for every cause, in each reading of the bike's cogs (`stray-cog.ts`), written to `into`
 * from `at` on.
 */
export function segmentLogLikelihood(
  prepared: PreparedSegment,
  rates: PulleyRates,
  into: Float64Array,
  at: number,
): void {
  const { places, kinds, counts, cellFrom, stray, cogRows } = prepared.shifts;
  const { outcome } = rates;
  const gained = new Float64Array(stray.length);
  let total = 0;
  for (let cell = 0; cell < stray.length; cell++) {
    let model = logModel;
    const to = cellFrom[cell + 1];
    for (let i = cellFrom[cell]; i < to; i++) {
      const p = places[i];
      const k = kinds[i];
      model +=
        counts[i] *
        Math.log(
          outcome[p] * fitOf[k] +
            outcome[p + 1] * fitOf[k + 1] +
            outcome[p + 2] * fitOf[k + 2] +
            outcome[p + 3] * fitOf[k + 3],
        );
    }
    const ahead = model - stray[cell];
    const either =
      ahead > 20 ? model : ahead > 0 ? model + Math.log1p(Math.exp(-ahead)) : stray[cell] + Math.log1p(Math.exp(ahead));
    gained[cell] = stray[cell] - logStray - either;
    total += either;
  }
  const log =
    total +
    revLogLikelihood(prepared.revs, rates.slowRevs) +
    rareEventsLogLikelihood(prepared.segment, prepared.events, rates) +
    haltLogLikelihood(prepared.halts, rates.drop);
  fillStrayReadings(log, cogRows, gained, into, at);
}
