import { sum } from 'd3-array';
import { counted } from '../../src/numeric/counted.ts';
import type { BikeSummary } from '../api/answers.ts';
import { removeBike } from '../api/bikes.ts';
import { announce } from '../dom/announce.ts';
import { listen, make } from '../dom/make.ts';
import { ask } from '../page/ask.ts';
import { attempt } from '../page/attempt.ts';
import { icon } from '../page/icons.ts';

/** Said over the list where nobody's own bike is among them. */
export const ALL_ARE_SAMPLES =
  'These came with the program: invented bikes with invented rides, to look at. Add your own rides to begin.';

export const allAreSamples = (bikes: readonly BikeSummary[]): boolean => bikes.every(({ sample }) => sample);

/** What goes with the samples: their rides, own ones that were added to them among them, so that nobody agrees unseen. */
export function removalWords(samples: readonly BikeSummary[]): string {
  const rides = sum(samples, (bike) => bike.rides);
  const names = samples.map(({ bike }) => bike.name).join('; ');
  return `${names}. With ${samples.length === 1 ? 'it' : 'them'} go ${counted(rides, 'ride')}, those that you added to ${samples.length === 1 ? 'it' : 'them'} included, and what was logged. They do not come back by themselves.`;
}

/**
 * Says which bikes are samples, and takes all of them away at once. Null where none is.
 *
 * @param removed called when they are gone, or some of them where it broke off
 */
export function samplesNote(bikes: readonly BikeSummary[], removed: () => Promise<unknown>): HTMLElement | null {
  const samples = bikes.filter(({ sample }) => sample);
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
    'div',
    { class: 'rack-samples' },
    make(
      'p',
      { class: 'quiet' },
      `${counted(samples.length, 'bike')} marked “sample”: invented, with invented rides; ${samples.length === 1 ? 'it' : 'they'} came with the program.`,
    ),
    listen(button, { click: () => void attempt(removeAll) }),
  );
}
