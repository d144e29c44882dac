import { sameDrivetrain } from '../../src/drivetrain/same-drivetrain.ts';
import { counted } from '../../src/numeric/counted.ts';
import { nothingToJudge } from '../../src/report/nothing-to-judge.ts';
import { ridesThatCount } from '../../src/report/rides-that-count.ts';
import { measuredRollout } from '../../src/report/words/measured-rollout.ts';
import type { Bike, BikeDetail, RideInShort } from '../api/answers.ts';
import { changeBike, listBikes, removeBike } from '../api/bikes.ts';
import { announce } from '../dom/announce.ts';
import { fill, listen, make } from '../dom/make.ts';
import { onEscape } from '../dom/on-escape.ts';
import { drivetrainForm } from '../drivetrain/drivetrain-form.ts';
import { nameTaken } from '../drivetrain/name-taken.ts';
import { ask } from '../page/ask.ts';
import { attempt } from '../page/attempt.ts';
import { type IconName, icon } from '../page/icons.ts';
import { go } from '../router/go.ts';
import { leftOutCogs } from '../words/left-out-cogs.ts';
import { NO_COG_SEEN } from '../words/without-cadence.ts';
import type { BikePage } from './bike-page.ts';

/** The wheel as the rides show it, or why they do not. */
function wheelShown(rides: readonly RideInShort[]): string {
  const measured = measuredRollout(rides);
  if (measured) return `${measured.mm} mm rollout, ${measured.how}`;
  return lackCadence(rides)
    ? 'not known: it is measured from rides with cadence'
    : 'not known yet: it is measured from the rides';
}

const lackCadence = (rides: readonly RideInShort[]): boolean => nothingToJudge(rides) === 'no-cadence';

/** What is known of the drivetrain, term by term. */
function drivetrainFacts(
  { chainrings, cassette, rolloutMm, tyre, actuation }: Bike,
  unseen: readonly number[],
  rides: readonly RideInShort[],
): HTMLElement {
  const fact = (term: string, text: string): HTMLElement => make('div', {}, make('dt', {}, term), make('dd', {}, text));
  return make(
    'dl',
    { class: 'facts' },
    fact('Chainrings', chainrings.join(', ')),
    fact('Cassette', cassette.map((teeth) => (unseen.includes(teeth) ? `${teeth} (not seen)` : teeth)).join(', ')),
    fact('Wheel', rolloutMm ? `${rolloutMm} mm rollout` : tyre ? `tyre ${tyre}` : wheelShown(rides)),
    fact('Actuation', actuation === 'cable' ? 'cable' : 'electronic'),
  );
}

/** Removes the bike with all that hangs on it, once the rider has agreed. */
async function removeAfterAsking({ id, bike, rides }: BikeDetail): Promise<void> {
  const yes = await ask(
    `Remove ${bike.name}?`,
    `The bike${rides > 0 ? `, its ${counted(rides, 'ride')}` : ''} and its log are taken out of the store for good. Your own copies of the files are not touched.`,
    'Remove the bike',
  );
  if (!yes) return;
  await removeBike(id);
  announce('Bike removed');
  go('/');
}

/** Saves what was changed, unless another bike has the new name. */
async function saveIfNamedAlone(was: BikeDetail, changed: Bike): Promise<void> {
  const taken = nameTaken(was, changed, (await listBikes()).bikes);
  if (taken) throw new Error(taken);
  await changeBike(was, changed);
}

const guessedWords = (rides: readonly RideInShort[]): string =>
  `${!measuredRollout(rides) && lackCadence(rides) ? `${NO_COG_SEEN}: guessed from the gear records as they stand.` : 'Guessed from the rides.'} The verdict is surer once it is right.`;

const tool = (name: IconName, key: string, text: string, click: () => void): HTMLButtonElement =>
  listen(make('button', { type: 'button', class: 'plain', 'data-keep': key }, icon(name), text), { click });

const toolsFor = (detail: BikeDetail, edit: () => void): HTMLElement =>
  make(
    'div',
    { class: 'row' },
    tool('edit', 'edit-bike', 'Change', edit),
    tool('remove', 'remove-bike', 'Remove the bike', () => void attempt(() => removeAfterAsking(detail))),
  );

/** The bike as it is known, with a form to put it right and a way to remove it. */
export function drivetrainSection({ bike: detail, refresh }: BikePage): HTMLElement {
  const { bike, report } = detail;
  const unseen = report?.bikeUnseenCogs ?? [];
  const rides = ridesThatCount(report ?? { rides: [] });
  const contents = make('div', { class: 'panel' });
  let same = false;
  const edit = (): void => {
    const { element } = drivetrainForm({
      start: { ...bike, cassette: bike.cassette.filter((teeth) => !unseen.includes(teeth)) },
      unseen,
      saveWord: 'Save',
      save: async (changed) => {
        await saveIfNamedAlone(detail, changed);
        same = sameDrivetrain(bike, changed);
      },
      saved: () => {
        show();
        announce(same ? 'Saved.' : 'Drivetrain saved. The rides are being worked through again.');
        void attempt(refresh);
      },
      cancelled: leave,
    });
    const remark = unseen.length > 0 && make('p', { class: 'remark' }, leftOutCogs(unseen));
    fill(contents, remark, onEscape(element, leave));
    element.querySelector('input')?.focus();
  };
  const leave = (): void => {
    show();
    contents.querySelector('button')?.focus();
  };
  const show = (): void =>
    fill(
      contents,
      drivetrainFacts(bike, unseen, rides),
      ...(report?.bikeNotes ?? []).map(({ message }) => make('p', { class: 'remark' }, message)),
      toolsFor(detail, edit),
    );
  show();
  return make(
    'section',
    { 'aria-labelledby': 'drivetrain' },
    make('h2', { id: 'drivetrain' }, 'Drivetrain'),
    detail.bikeSource === 'guessed' && make('p', { class: 'quiet' }, guessedWords(rides)),
    contents,
  );
}
