import { counted } from '../../src/numeric/counted.ts';
import type { BikeSummary } from '../api/answers.ts';
import { listen, make } from '../dom/make.ts';
import type { Chosen, Work } from './chosen.ts';
import { newBikeForm } from './new-bike-form.ts';

interface CompanionPlan {
  readonly chosen: Chosen;
  /** The bike picked; null: a new one. */
  readonly bike: BikeSummary | null;
  /** Whether there is a bike to pick. */
  readonly anyBike: boolean;
  readonly start: (work: Work) => void;
}

/** Files of adjustments for a bike that is here. */
function takeInStep({ id, bike }: BikeSummary, adjustments: Chosen['adjustments'], start: CompanionPlan['start']) {
  const go = make('button', { type: 'button' }, `Take in ${counted(adjustments.length, 'file')}`);
  const work = { rides: [], adjustments, bikeId: id, bikeName: bike.name, made: false };
  return make('p', { class: 'row' }, listen(go, { click: () => start(work) }));
}

/** The step where no rides were chosen: a bike to be made from its file, or adjustments for one. */
export function companionStep({ chosen, bike, anyBike, start }: CompanionPlan): HTMLElement | null {
  const { adjustments, described } = chosen;
  if (described && !bike)
    return make(
      'section',
      { class: 'add-guess', 'aria-label': 'The new bike' },
      make('h2', {}, 'Is this the bike?'),
      make('p', {}, `As ${described.file} describes it. Look it over.`),
      newBikeForm(chosen, described.bike, start),
    );
  if (adjustments.length === 0)
    return bike && make('p', {}, make('a', { href: `/bikes/${bike.id}` }, `To ${bike.bike.name}`));
  if (bike) return takeInStep(bike, adjustments, start);
  const ways = anyBike ? 'Choose the bike they belong to, or' : 'There is no bike here yet:';
  return make('p', { class: 'remark' }, `${ways} add its bike file or its rides as well.`);
}
