import { archiveAddress, bringIn, getHealth } from '../api/archive.ts';
import { announce } from '../dom/announce.ts';
import { freshId } from '../dom/fresh-id.ts';
import { fill, listen, make } from '../dom/make.ts';
import { icon } from '../page/icons.ts';
import { loadInto } from '../page/load-into.ts';
import { namePage } from '../page/name-page.ts';
import type { View } from '../router/router.ts';
import { counted } from '../words/numbers.ts';

interface Brought {
  readonly bikes: { readonly added: number; readonly merged: number };
  readonly rides: { readonly added: number; readonly known: number };
}

/** Taking everything to another machine, and bringing it in there. */
export const dataView: View = ({ place, signal }) => {
  namePage('Your data');
  loadInto(place, 'the store', signal, getHealth, (health) => {
    const id = freshId('archive');
    const file = make('input', { id, type: 'file', accept: '.zip' });
    const said = make('p', { role: 'status' });
    const button = make('button', { type: 'submit' }, 'Bring it in');
    const form = listen(
      make(
        'form',
        { class: 'form', novalidate: true },
        make('div', { class: 'field' }, make('label', { for: id }, 'Archive from another machine'), file),
        make('p', {}, button),
        said,
      ),
      {
        submit: (event) => {
          event.preventDefault();
          const archive = file.files?.[0];
          said.className = '';
          if (!archive) {
            said.className = 'fault';
            said.textContent = 'Choose an archive first.';
            file.focus();
            return;
          }
          button.disabled = true;
          said.textContent = 'Bringing it in …';
          bringIn(archive)
            .then((answer) => {
              const { bikes, rides } = answer as unknown as Brought;
              said.textContent = `${counted(bikes.added, 'bike')} and ${counted(rides.added, 'ride')} added; ${counted(rides.known, 'ride')} ${rides.known === 1 ? 'was' : 'were'} here already.`;
              announce(said.textContent);
            })
            .catch((error: Error) => {
              said.className = 'fault';
              said.textContent = error.message;
            })
            .finally(() => {
              button.disabled = false;
            });
        },
      },
    );
    fill(
      place,
      make(
        'div',
        { class: 'view-head' },
        make(
          'div',
          {},
          make('h1', { tabindex: -1 }, 'Your data'),
          make(
            'p',
            { class: 'lead' },
            'Everything lies in a folder on the machine that runs cogwright; the terminal it was started in names it. Nothing leaves it unless you take it.',
          ),
        ),
      ),
      make(
        'div',
        { class: 'data-halves' },
        make(
          'section',
          { class: 'panel data-half', 'aria-labelledby': 'take' },
          make('h2', { id: 'take' }, 'Take it with you'),
          make('p', {}, 'One archive with every bike, ride file, adjustment and judgement. Positions are not in it.'),
          make(
            'p',
            {},
            make('a', { class: 'button', href: archiveAddress, download: '' }, icon('save'), 'Save the archive'),
          ),
        ),
        make(
          'section',
          { class: 'panel data-half', 'aria-labelledby': 'bring' },
          make('h2', { id: 'bring' }, 'Bring it in'),
          make('p', {}, 'What is here already stays; the same ride is not taken in twice.'),
          form,
        ),
      ),
      make('p', { class: 'quiet' }, `cogwright ${health.version}, engine ${health.engineVersion}`),
    );
  });
};
