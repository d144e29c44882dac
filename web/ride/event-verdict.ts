import type { Verdict } from '../api/answers.ts';
import { judge, withdrawJudgement } from '../api/rides.ts';
import { announce } from '../dom/announce.ts';
import { fill, listen, make } from '../dom/make.ts';
import { attempt } from '../page/attempt.ts';
import { icon } from '../page/icons.ts';
import { countsAs, isTrouble, type RideEvent } from './ride-event.ts';

type Said = Exclude<Verdict, 'told'>;

/** Asked of a chain's going to its cog at last, which falls with the missed shift before it. */
const FALLEN = 'It no longer counts, since you rejected the missed shift before it. Did it happen all the same?';

/** What the rider said of an event, in a sentence. */
function saidWords(event: RideEvent): string {
  if (event.verdict === 'told') return 'You told of this; it counts as sure.';
  if (event.verdict === 'confirmed') return 'You said that this happened.';
  return `You said that this did not happen; ${countsAs(event) === 'clean' ? 'it is counted as a clean shift' : 'it no longer counts'}.`;
}

/** What the rider says of an event: asked while nothing was said, and to be taken back afterwards. */
export function makeEventVerdict(
  rideId: string,
  onJudged: () => Promise<void>,
): { readonly element: HTMLElement; show(event: RideEvent): void } {
  const element = make('div', { class: 'event-verdict' });
  const say = async (event: RideEvent, word: Said | null): Promise<void> => {
    await (word ? judge(rideId, event.key, word) : withdrawJudgement(rideId, event.key));
    announce(word ? `Marked as ${word}. Tallies and verdict follow.` : 'Taken back.');
    await onJudged();
    element.querySelector('button')?.focus();
  };
  const button = (event: RideEvent, word: Said | null, text: string): HTMLButtonElement =>
    listen(
      make(
        'button',
        { type: 'button', class: 'plain small' },
        word && icon(word === 'confirmed' ? 'tick' : 'cross'),
        text,
      ),
      { click: () => void attempt(() => say(event, word)) },
    );
  const asked = (event: RideEvent) => [
    make('p', {}, event.fallen ? FALLEN : 'You were there. Is it right?'),
    make(
      'div',
      { class: 'row' },
      button(event, 'confirmed', 'Yes, it happened'),
      button(event, 'rejected', 'No, it did not'),
    ),
  ];
  const answered = (event: RideEvent) => [make('p', {}, saidWords(event)), button(event, null, 'Take it back')];
  return {
    element,
    show: (event) => fill(element, isTrouble(event.kind) && (event.verdict ? answered(event) : asked(event))),
  };
}
