import { counted } from '../../src/numeric/counted.ts';
import type { Bike } from '../api/answers.ts';
import { createBike } from '../api/bikes.ts';
import { make } from '../dom/make.ts';
import { drivetrainForm } from '../drivetrain/drivetrain-form.ts';
import type { Chosen, Work } from './chosen.ts';

/** A form for a new bike, which then works through what was chosen with it. `unseen`: cogs of a guess that no ride shows, which are not filled in. */
export function newBikeForm(
  { rides, adjustments }: Pick<Chosen, 'rides' | 'adjustments'>,
  { unseen, ...startWith }: Partial<Bike> & { readonly unseen?: readonly number[] },
  start: (work: Work) => void,
): HTMLElement {
  let made: { id: string; name: string } | null = null;
  const files = rides.length + adjustments.length;
  const { element } = drivetrainForm({
    start: startWith,
    unseen,
    saveWord: files > 0 ? `Save the bike and work through ${counted(files, 'file')}` : 'Save the bike',
    save: async (bike) => {
      const { id } = await createBike(bike);
      made = { id, name: bike.name };
    },
    saved: () => made && start({ rides, adjustments, bikeId: made.id, bikeName: made.name, made: true }),
  });
  return make('div', { class: 'panel' }, element);
}
