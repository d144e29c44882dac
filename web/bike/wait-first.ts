import { make } from '../dom/make.ts';
import { cautions } from '../page/cautions.ts';
import type { BikePage } from './bike-page.ts';

/** In place of the next step while rides are still to be analysed: what they show may change it. The cautions hold all the same. */
export const waitFirst = ({ bike: { staleReason, report, state } }: Pick<BikePage, 'bike'>): HTMLElement =>
  make(
    'section',
    { class: 'tag', 'aria-label': 'Next step' },
    make('p', { class: 'tag-kind' }, 'Next step'),
    make('h2', {}, state.dangers.length > 0 ? 'Look the bike over first' : 'Wait'),
    state.dangers.length > 0 &&
      make('p', { class: 'tag-action' }, 'What is warned of here holds all the same: see to it before anybody rides.'),
    make(
      'p',
      { class: 'tag-action' },
      ...(staleReason === null ? [] : [`${staleReason} `]),
      'The next step follows then.',
    ),
    report && cautions(report.diagnosis.suggestion),
  );
