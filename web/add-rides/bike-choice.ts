import type { BikeSummary } from '../api/answers.ts';
import { freshId } from '../dom/fresh-id.ts';
import { listen, make } from '../dom/make.ts';
import { bikesByName } from '../words/bikes-by-name.ts';
import { drivetrainLine } from '../words/drivetrain-words.ts';
import { samplesApart } from '../words/samples-apart.ts';

/** The field in which to pick a bike. */
export interface BikeChoice {
  readonly element: HTMLElement;
  /** The bike picked; null: a new one. */
  bikeId(): string | null;
  /** Picks a bike. */
  pick(bikeId: string): void;
}

/** Whose these are: a bike that is there, or a new one. */
export function makeBikeChoice(bikes: readonly BikeSummary[], asked: string | null, changed: () => void): BikeChoice {
  const id = freshId('bike');
  const { own, samples } = samplesApart(bikesByName(bikes));
  const known = bikes.some((bike) => bike.id === asked);
  const select = make(
    'select',
    { id },
    make('option', { value: '' }, 'A new bike'),
    ...[...own, ...samples].map((bike) =>
      make(
        'option',
        { value: bike.id, selected: known && bike.id === asked },
        `${bike.bike.name} (${bike.sample ? 'sample, ' : ''}${drivetrainLine(bike.bike)})`,
      ),
    ),
  );
  listen(select, { change: changed });
  return {
    element: make(
      'section',
      { class: 'field bike-choice' },
      make('label', { for: id }, 'Which bike do these belong to?'),
      select,
    ),
    bikeId: () => select.value || null,
    pick: (bikeId) => {
      select.value = bikeId;
    },
  };
}
