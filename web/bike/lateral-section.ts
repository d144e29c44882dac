import { signedMm } from '../../src/report/words/number-words.ts';
import { showsNothing } from '../../src/report/words/verdict-words.ts';
import { chartFigure } from '../charts/chart-figure.ts';
import { lateralErrorPlan } from '../charts/lateral-error.ts';
import { make } from '../dom/make.ts';
import { fileStem } from '../words/file-stem.ts';
import type { BikePage } from './bike-page.ts';

/** How far the guide pulley is thought to be off; null where the engine did not say or the rides show nothing. */
export function lateralSection({ bike }: BikePage): HTMLElement | null {
  const diagnosis = bike.report?.diagnosis;
  if (!bike.report || !diagnosis?.lateralErrorMm.length || showsNothing(bike.report)) return null;
  const { mean, low, high } = diagnosis.lateralOffsetMm;
  const side = low > 0 ? 'too far inboard' : high < 0 ? 'too far outboard' : 'not clearly to either side';
  return make(
    'section',
    { 'aria-labelledby': 'lateral' },
    make('h2', { id: 'lateral' }, 'Where the guide pulley stands'),
    make(
      'div',
      { class: 'panel' },
      chartFigure(
        lateralErrorPlan(
          diagnosis.lateralErrorMm,
          `On average over the cassette the guide pulley stands ${side}: ${signedMm(mean)}, between ${signedMm(low)} and ${signedMm(high)} (95 %). Worked out from how shifts went, not measured.`,
          fileStem(bike.bike.name, 'lateral error'),
        ),
      ),
    ),
  );
}
