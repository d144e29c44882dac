import { sum } from 'd3-array';
import { counted } from '../../src/numeric/counted.ts';
import type { BikeSummary } from '../api/answers.ts';
import { removeBike } from '../api/bikes.ts';
import { announce } from '../dom/announce.ts';
import { listen, make } from '../dom/make.ts';
import { ask } from '../page/ask.ts';
import { attempt } from '../page/attempt.ts';
import { icon } from '../page/icons.ts';

/** What goes with the samples: their rides, own ones that were added to them among them, so that nobody agrees unseen. */
export function removalWords(samples: readonly BikeSummary[]): string {
  const rides = sum(samples, (bike) => bike.rides);
  const names = samples.map(({ bike }) => bike.name).join('; ');
  return `${names}. With ${samples.length === 1 ? 'it' : 'them'} go ${counted(rides, 'ride')}, those that you added to ${samples.length === 1 ? 'it' : 'them'} included, and what was logged. They do not come back by themselves.`;
}

/**
 * The sample bikes by themselves, under a heading that says what they are, with a way to take all of them away at once. Null where there is none.
 *
 * @param rows their list
 * @param removed called when they are gone, or some of them where it broke off
 */
export function samplesSection(
  samples: readonly BikeSummary[],
  rows: HTMLElement,
  removed: () => Promise<unknown>,
): HTMLElement | null {
  if (samples.length === 0) return null;
  const removeAll = async (): Promise<void> => {
    const title = `Remove ${counted(samples.length, 'sample bike')}?`;
    if (!(await ask(title, removalWords(samples), 'Remove the samples'))) return;
    try {
      for (const { id } of samples) await removeBike(id);
      announce('Samples removed');
    } finally {
      await removed();
    }
  };
  const button = make(
    'button',
    { type: 'button', class: 'plain', 'data-keep': 'remove-samples' },
    icon('remove'),
    'Remove the samples',
  );
  return make(
    'section',
    { class: 'rack-samples', 'aria-labelledby': 'samples' },
    make(
      'div',
      { class: 'section-head' },
      make(
        'div',
        {},
        make('h2', { id: 'samples' }, counted(samples.length, 'sample bike')),
        make(
          'p',
          { class: 'quiet' },
          'Invented, with invented rides: they came with the program, to look at, and count nowhere else.',
        ),
      ),
      listen(button, { click: () => void attempt(removeAll) }),
    ),
    rows,
  );
}
