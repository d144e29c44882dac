import { readBikeFile } from '../add-rides/companion-files.ts';
import type { Bike } from '../api/answers.ts';
import { createBike } from '../api/bikes.ts';
import { announce } from '../dom/announce.ts';
import { fileButton } from '../dom/file-button.ts';
import { fill, make } from '../dom/make.ts';
import { drivetrainForm } from '../drivetrain/drivetrain-form.ts';
import { namePage } from '../page/name-page.ts';
import { viewHead } from '../page/view-head.ts';
import { go } from '../router/go.ts';
import type { View } from '../router/router.ts';

/** A form that makes a bike and goes to its page. */
function bikeForm(start: Partial<Bike>, signal: AbortSignal): HTMLFormElement {
  let made = '';
  return drivetrainForm({
    start,
    saveWord: 'Save the bike',
    save: async (bike) => {
      made = (await createBike(bike)).id;
    },
    saved: () => {
      announce('Bike saved');
      // a slow answer does not fetch the reader back from where they went since
      if (!signal.aborted) go(`/bikes/${made}`);
    },
  }).element;
}

/** Enters a bike before its first ride, by hand or from its bike file. */
export const enterBikeView: View = ({ place, signal }) => {
  namePage('Enter a bike');
  const panel = make('div', { class: 'panel' }, bikeForm({}, signal));
  const outcome = make('p', { role: 'status', hidden: true });
  const take = async (file: File): Promise<void> => {
    const { bike, fault } = await readBikeFile(file);
    if (signal.aborted) return;
    outcome.hidden = false;
    outcome.className = fault ? 'fault' : 'quiet';
    outcome.textContent = fault ?? `Read from ${file.name}. Look it over, then save it.`;
    if (bike) fill(panel, bikeForm(bike, signal));
  };
  fill(
    place,
    viewHead(
      'Enter a bike',
      'A bike can stand here before its first ride: by hand, or from its bike file.',
      fileButton({ accept: '.json', take: (file) => void take(file) }, 'Read a bike file'),
    ),
    outcome,
    panel,
  );
};
