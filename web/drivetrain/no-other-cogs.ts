import { listed } from '../../src/numeric/listed.ts';
import { freshId } from '../dom/fresh-id.ts';
import { make } from '../dom/make.ts';

/** A box that says of a guess that the bike has no cogs but those written down. */
interface NoOtherCogs {
  readonly element: HTMLElement;
  /** What is to be said of a cassette with so many cogs before it is saved; null: it can be. */
  faultOf(cogs: number): string | null;
}

/**
 * Asks about cogs of a guess that no ride shows, and that were not filled in. A cassette that lacks as many is saved only once its rider has said that
 * this is how it is.
 *
 * @param unseen those cogs, in teeth
 * @param filledIn how many cogs the form began with
 */
export function noOtherCogs(unseen: readonly number[], filledIn: number): NoOtherCogs {
  const box = make('input', { type: 'checkbox', name: 'noOtherCogs' });
  const hint = make(
    'p',
    { class: 'hint', id: freshId('hint') },
    'A ride on a cog that is not written here may be taken for another bike’s, or its shifts be judged wrongly.',
  );
  box.setAttribute('aria-describedby', hint.id);
  const label = make('label', { class: 'pick' }, box, 'The bike has no cogs but these');
  const they = unseen.length === 1 ? 'it is' : 'they are';
  return {
    element: make('div', { class: 'field' }, label, hint),
    faultOf: (cogs) =>
      box.checked || cogs >= filledIn + unseen.length
        ? null
        : `No ride shows ${listed(unseen)}, so ${they} not filled in. Write in every cog that the bike has, or tick below that it has no others.`,
  };
}
