import type { BikeSummary } from '../api/answers.ts';
import { listBikes } from '../api/bikes.ts';
import { fill, make } from '../dom/make.ts';
import { loadInto } from '../page/load-into.ts';
import { namePage } from '../page/name-page.ts';
import type { View } from '../router/router.ts';
import { makeBikeChoice } from './bike-choice.ts';
import { makeFileChoice } from './file-choice.ts';
import { makeGuessStep } from './guess-step.ts';
import { followWork } from './work-step.ts';

/** Add rides: choose the files, say whose they are, look the drivetrain over, watch them being worked through. */
export const addRidesView: View = ({ place, query, signal }) => {
  namePage('Add rides');
  loadInto(place, 'the bikes', signal, listBikes, ({ bikes }) => show(bikes));

  const show = (bikes: readonly BikeSummary[]): void => {
    const next = make('div', { class: 'add-next' });
    const start = (chosen: readonly File[], bikeId: string, bikeName: string, made: boolean): void =>
      followWork({ place, bikeId, bikeName, made, files: chosen, signal, again: () => show(bikes) });
    const guess = makeGuessStep({ signal, start });
    const changed = (): void => {
      const chosen = files.chosen();
      choice.element.hidden = chosen.length === 0 || bikes.length === 0;
      if (chosen.length === 0) fill(next);
      else fill(next, guess.show(chosen, bikes.find(({ id }) => id === choice.bikeId()) ?? null));
    };
    const choice = makeBikeChoice(bikes, query.get('bike'), changed);
    const files = makeFileChoice(changed);
    fill(
      place,
      make(
        'div',
        { class: 'view-head' },
        make(
          'div',
          {},
          make('h1', { tabindex: -1 }, 'Add rides'),
          make(
            'p',
            { class: 'lead' },
            'Ride logs with gear changes and cadence tell most. FIT, TCX, GPX and CSV are read; what a file is, is told by its contents.',
          ),
        ),
      ),
      files.element,
      choice.element,
      next,
    );
    changed();
  };
};
