import { weighsNoShift } from '../../src/report/shows-nothing.ts';
import { lateralSentence } from '../../src/report/words/lateral-sentence.ts';
import { lateralErrorPlan } from '../charts/lateral-error.ts';
import { fileStem } from '../words/file-stem.ts';
import type { BikePage } from './bike-page.ts';
import { chartSection } from './chart-section.ts';

/** How far the guide pulley is thought to be off; null where the engine did not say or no shift tells it. */
export function lateralSection({ bike }: BikePage): HTMLElement | null {
  const diagnosis = bike.report?.diagnosis;
  if (!bike.report || !diagnosis?.lateralErrorMm.length || weighsNoShift(bike.report)) return null;
  const summary = lateralSentence(diagnosis.lateralOffsetMm);
  const fileName = fileStem(bike.bike.name, 'lateral error');
  return chartSection(
    'lateral',
    'Where the guide pulley stands',
    lateralErrorPlan(diagnosis.lateralErrorMm, summary, fileName),
  );
}
