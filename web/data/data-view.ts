import { counted } from '../../src/numeric/counted.ts';
import { listed } from '../../src/numeric/listed.ts';
import { understoodList } from '../add-rides/understood-list.ts';
import { isZip } from '../add-rides/unpack-zip.ts';
import type { Merged } from '../api/answers.ts';
import { archiveAddress, bringIn, getHealth } from '../api/archive.ts';
import { freshId } from '../dom/fresh-id.ts';
import { fill, listen, make } from '../dom/make.ts';
import { icon } from '../page/icons.ts';
import { loadInto } from '../page/load-into.ts';
import { namePage } from '../page/name-page.ts';
import { viewHead } from '../page/view-head.ts';
import type { View } from '../router/router.ts';

/** What an archive brought, as a sentence a kind: what is new, and what was here already. */
export function mergedSentences({ bikes, rides, adjustments, judgements }: Merged): string[] {
  const kinds = [
    { name: 'bike', added: bikes.added, known: bikes.merged },
    { name: 'ride', ...rides },
    { name: 'adjustment', ...adjustments },
    { name: 'judgement', ...judgements },
  ];
  const added = kinds.filter((kind) => kind.added > 0).map((kind) => counted(kind.added, kind.name));
  const known = kinds.filter((kind) => kind.known > 0);
  const one = known.length === 1 && known[0].known === 1;
  return [
    added.length > 0 ? `Added: ${listed(added)}.` : 'Nothing new was in it.',
    ...(known.length > 0
      ? [`${listed(known.map((kind) => counted(kind.known, kind.name)))} ${one ? 'was' : 'were'} here already.`]
      : []),
  ];
}

/** The rides of an archive that could not be taken in, each with its reason. */
function refusedRides({ rides: { refused } }: Merged): HTMLElement | null {
  if (refused.length === 0) return null;
  return make(
    'section',
    { class: 'refused', 'aria-label': 'Rides that were not taken in' },
    make('p', { class: 'fault' }, `${counted(refused.length, 'ride')} could not be taken in:`),
    understoodList(
      refused.map(({ name, message }) => ({ name, understood: [], notUnderstood: [message], remarks: [] })),
    ),
  );
}

/** What was said to the reader of an archive: one line, and the rides that could not be taken in. */
class Outcome {
  readonly line = make('p', { role: 'status' });
  readonly refused = make('div', { role: 'status' });

  say(text: string, { fault = false, refused = null as HTMLElement | null } = {}): void {
    this.line.className = fault ? 'fault' : '';
    this.line.textContent = text;
    fill(this.refused, refused);
  }
}

/** Of a file that is no archive by its first bytes: it need not be sent to be refused. */
const noArchive = (name: string): string =>
  `${name} is no archive, which is a zip file: nothing was sent. Choose a file that “Save the archive” made. Rides are added under “Add rides”.`;

/** Form that takes an archive in. */
function bringForm(): HTMLFormElement {
  const id = freshId('archive');
  const file = make('input', { id, type: 'file', accept: '.zip' });
  const button = make('button', { type: 'submit' }, 'Bring it in');
  const outcome = new Outcome();
  const submit = async (archive: File | undefined): Promise<void> => {
    if (!archive) {
      outcome.say('Choose an archive first.', { fault: true });
      file.focus();
      return;
    }
    if (!(await isZip(archive).catch(() => true))) {
      outcome.say(noArchive(archive.name), { fault: true });
      file.focus();
      return;
    }
    button.disabled = true;
    outcome.say('Bringing it in …');
    try {
      const merged = await bringIn(archive);
      outcome.say(mergedSentences(merged).join(' '), { refused: refusedRides(merged) });
    } catch (error) {
      outcome.say((error as Error).message, { fault: true });
    } finally {
      button.disabled = false;
    }
  };
  return listen(
    make(
      'form',
      { class: 'form', novalidate: true },
      make('div', { class: 'field' }, make('label', { for: id }, 'Archive from another machine'), file),
      make('p', {}, button),
      outcome.line,
      outcome.refused,
    ),
    {
      submit: (event) => {
        event.preventDefault();
        void submit(file.files?.[0]);
      },
    },
  );
}

const half = (id: string, title: string, ...parts: HTMLElement[]): HTMLElement =>
  make('section', { class: 'panel data-half', 'aria-labelledby': id }, make('h2', { id }, title), ...parts);

/** Taking everything to another machine, and bringing it in there. */
export const dataView: View = ({ place, signal }) => {
  namePage('Your data');
  loadInto(place, 'the store', signal, getHealth, (health) => {
    const lead =
      'Everything lies in a folder on the machine that runs cogwright; the terminal it was started in names it. Nothing leaves it unless you take it.';
    const save = make('a', { class: 'button', href: archiveAddress, download: '' }, icon('save'), 'Save the archive');
    fill(
      place,
      viewHead('Your data', lead),
      make(
        'div',
        { class: 'data-halves' },
        half(
          'take',
          'Take it with you',
          make(
            'p',
            {},
            'One archive with every bike, ride file, adjustment and judgement, and what is set aside for the workshop. Positions are not in it.',
          ),
          make('p', {}, save),
        ),
        half(
          'bring',
          'Bring it in',
          make('p', {}, 'What is here already stays; the same ride is not taken in twice.'),
          bringForm(),
        ),
      ),
      make('p', { class: 'quiet' }, `cogwright ${health.version}, engine ${health.engineVersion}`),
    );
  });
};
