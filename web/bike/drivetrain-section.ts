import { counted } from '../../src/numeric/counted.ts';
import { changeBike, removeBike } from '../api/bikes.ts';
import { announce } from '../dom/announce.ts';
import { fill, listen, make } from '../dom/make.ts';
import { ask } from '../page/ask.ts';
import { attempt } from '../page/attempt.ts';
import { icon } from '../page/icons.ts';
import { go } from '../router/go.ts';
import type { BikePage } from './bike-page.ts';
import { drivetrainForm } from './drivetrain-form.ts';

/** The bike as it is known, with a form to put it right and a way to remove it. */
export function drivetrainSection({ bike: detail, refresh }: BikePage): HTMLElement {
  const { bike, report } = detail;
  const contents = make('div', { class: 'panel' });
  const fact = (term: string, text: string): HTMLElement => make('div', {}, make('dt', {}, term), make('dd', {}, text));
  const edit = (): void => {
    const { element } = drivetrainForm({
      start: bike,
      saveWord: 'Save and work through the rides again',
      save: (changed) => changeBike(detail.id, changed),
      saved: () => {
        show();
        announce('Drivetrain saved. The rides are being worked through again.');
        void attempt(refresh);
      },
      cancelled: show,
    });
    fill(contents, element);
    element.querySelector('input')?.focus();
  };
  const remove = async (): Promise<void> => {
    const yes = await ask(
      `Remove ${bike.name}?`,
      `The bike, its ${counted(detail.rides, 'ride')} and its log are taken out of the store for good. Your own copies of the files are not touched.`,
      'Remove the bike',
    );
    if (!yes) return;
    await removeBike(detail.id);
    announce('Bike removed');
    go('/');
  };
  const show = (): void =>
    fill(
      contents,
      make(
        'dl',
        { class: 'facts' },
        fact('Chainrings', bike.chainrings.join(', ')),
        fact('Cassette', bike.cassette.join(', ')),
        fact(
          'Wheel',
          bike.rolloutMm ? `${bike.rolloutMm} mm rollout` : bike.tyre ? `tyre ${bike.tyre}` : 'measured from the rides',
        ),
        fact('Actuation', bike.actuation === 'cable' ? 'cable' : 'electronic'),
      ),
      ...(report?.bikeNotes ?? []).map(({ message }) => make('p', { class: 'remark' }, message)),
      make(
        'div',
        { class: 'row' },
        listen(make('button', { type: 'button', class: 'plain', 'data-keep': 'edit-bike' }, icon('edit'), 'Change'), {
          click: edit,
        }),
        listen(
          make(
            'button',
            { type: 'button', class: 'plain', 'data-keep': 'remove-bike' },
            icon('remove'),
            'Remove the bike',
          ),
          {
            click: () => void attempt(remove),
          },
        ),
      ),
    );
  show();
  return make(
    'section',
    { 'aria-labelledby': 'drivetrain' },
    make('h2', { id: 'drivetrain' }, 'Drivetrain'),
    detail.bikeSource === 'guessed' &&
      make('p', { class: 'quiet' }, 'Guessed from the rides. The verdict is surer once it is right.'),
    contents,
  );
}
