import { make } from '../dom/make.ts';
import { withCautions } from '../page/cautions.ts';
import { looksFirst } from '../words/looks-first.ts';
import { standingWords } from '../words/state-words.ts';
import type { BikePage } from './bike-page.ts';

/** In place of the next step while rides are still to be analysed: what they show may change it. The cautions hold all the same. */
export function waitFirst({ bike: { staleReason, report, state } }: Pick<BikePage, 'bike'>): HTMLElement {
  const look = looksFirst(state);
  const step = make(
    'div',
    { class: 'tag-step' },
    look &&
      make('p', { class: 'tag-action' }, 'What is warned of here holds all the same: see to it before anybody rides.'),
    make(
      'p',
      { class: 'tag-action' },
      ...(staleReason === null ? [] : [`${staleReason} `]),
      'The next step follows then.',
    ),
  );
  return make(
    'section',
    { class: 'tag', 'aria-label': 'Next step' },
    make('p', { class: 'tag-kind' }, 'Next step'),
    make('h2', {}, look ? standingWords['look first'].label : 'Wait'),
    report ? withCautions(report.diagnosis.suggestion, state, [step]) : step,
  );
}
