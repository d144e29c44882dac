import { evidenceWeights } from '../assumptions.ts';
import { fitOf } from '../evidence/outcome-fit.ts';
import type { PulleyRates } from '../imagined-bike/pulley-rates.ts';
import type { PreparedSegment } from './prepare-segments.ts';
import { rareEventsLogLikelihood } from './rare-events.ts';
import { revLogLikelihood } from './rev-likelihood.ts';

const logModel = Math.log(1 - evidenceWeights.strayCell);

/** Log likelihood of one segment under rates, up to terms that are the same for every cause. */
export function segmentLogLikelihood(prepared: PreparedSegment, rates: PulleyRates): number {
  const { places, kinds, counts, cellFrom, stray } = prepared.shifts;
  const { outcome } = rates;
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
    total +=
      ahead > 20 ? model : ahead > 0 ? model + Math.log1p(Math.exp(-ahead)) : stray[cell] + Math.log1p(Math.exp(ahead));
  }
  return (
    total +
    revLogLikelihood(prepared.revs, rates.slowRevs) +
    rareEventsLogLikelihood(prepared.segment, prepared.events, rates)
  );
}
