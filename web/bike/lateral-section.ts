import { signedMm } from '../../src/report/words/number-words.ts';
import { showsNothing } from '../../src/report/words/verdict-words.ts';
import { lateralErrorPlan } from '../charts/lateral-error.ts';
import { fileStem } from '../words/file-stem.ts';
import type { BikePage } from './bike-page.ts';
import { chartSection } from './chart-section.ts';

/** How far the guide pulley is thought to be off; null where the engine did not say or the rides show nothing. */
export function lateralSection({ bike }: BikePage): HTMLElement | null {
  const diagnosis = bike.report?.diagnosis;
  if (!bike.report || !diagnosis?.lateralErrorMm.length || showsNothing(bike.report)) return null;
  const { mean, low, high } = diagnosis.lateralOffsetMm;
  const side = low > 0 ? 'too far inboard' : high < 0 ? 'too far outboard' : 'not clearly to either side';
  const summary = `On average over the cassette the guide pulley stands ${side}: ${signedMm(mean)}, between ${signedMm(low)} and ${signedMm(high)} (95 %). Worked out from how shifts went, not measured.`;
  const fileName = fileStem(bike.bike.name, 'lateral error');
  return chartSection(
    'lateral',
    'Where the guide pulley stands',
    lateralErrorPlan(diagnosis.lateralErrorMm, summary, fileName),
  );
}
