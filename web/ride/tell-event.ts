import { upperFirst } from '../../src/numeric/upper-first.ts';
import { dropSideWords } from '../../src/report/words/event-words.ts';
import type { DropSide } from '../../src/shifts/ride-events.ts';
import { tellEvent } from '../api/rides.ts';
import { announce } from '../dom/announce.ts';
import { field } from '../dom/labelled-field.ts';
import { listen, make } from '../dom/make.ts';
import { type TextField, textField } from '../dom/text-field.ts';
import { attempt } from '../page/attempt.ts';
import { fromRideClock, rideClock } from '../words/dates.ts';

interface TellPlan {
  readonly rideId: string;
  readonly startMs: number;
  readonly durationS: number;
  /** The event was added under this key. */
  readonly onTold: (key: string) => Promise<void>;
}

/** The form by which a rider adds what the log does not show. */
export interface TellEvent {
  readonly element: HTMLElement;
  /** Takes a moment that was picked on the timeline, seconds since the start; nothing while the form is closed. */
  pick(timeS: number): void;
}

/** The side is one that the rider chose: none is taken for granted, least of all one that says to keep off a cog. */
const sides: readonly DropSide[] = ['unknown', 'past-largest', 'past-smallest', 'chainring'];

const choice = (options: readonly (readonly [value: string, words: string])[]): HTMLSelectElement =>
  make('select', {}, ...options.map(([value, words]) => make('option', { value }, words)));

interface TellFields {
  readonly form: HTMLFormElement;
  readonly kind: HTMLSelectElement;
  readonly side: HTMLSelectElement;
  readonly when: TextField;
}

function makeFields(durationS: number): TellFields {
  const kind = choice([
    ['drop', 'The chain came off'],
    ['skip', 'The chain skipped under load'],
  ]);
  const side = choice(sides.map((one) => [one, upperFirst(dropSideWords[one])]));
  const sideField = field('Where it went', side);
  const when = textField(
    make('input', { name: 'moment', type: 'text', autocomplete: 'off', placeholder: '0:12:30' }),
    'When, since the start',
    `Touch the timeline at that moment, or write it as hours:minutes:seconds, up to ${rideClock(durationS)}.`,
  );
  listen(kind, { change: () => sideField.toggleAttribute('hidden', kind.value !== 'drop') });
  const form = make(
    'form',
    { class: 'tell-event' },
    field('What happened', kind),
    sideField,
    when.element,
    make('button', { type: 'submit', class: 'plain' }, 'Add it to this ride'),
  );
  return { form, kind, side, when };
}

/** Makes the form: what happened, where the chain went, and when. */
export function makeTellEvent({ rideId, startMs, durationS, onTold }: TellPlan): TellEvent {
  const { form, kind, side, when } = makeFields(durationS);
  const momentS = (): number | null => {
    const timeS = fromRideClock(when.input.value);
    // the clock shows whole seconds, and the last one may be shown as past the end
    return timeS === null || timeS > durationS + 0.5 ? null : Math.min(timeS, durationS);
  };
  const tell = async (timeS: number): Promise<void> => {
    const key = `${kind.value}-${Math.round(startMs + timeS * 1000)}`;
    await tellEvent(rideId, key, kind.value === 'drop' ? (side.value as DropSide) : undefined);
    when.input.value = '';
    announce('Added. Tallies and verdict follow.');
    await onTold(key);
  };
  listen(form, {
    submit: (event) => {
      event.preventDefault();
      const timeS = momentS();
      when.say(timeS === null ? `Write a moment of this ride, from 0:00 to ${rideClock(durationS)}.` : undefined);
      if (timeS === null) when.input.focus();
      else void attempt(() => tell(timeS));
    },
  });
  const element = make(
    'details',
    {},
    make('summary', {}, 'Did the chain come off or skip, and it is not shown?'),
    form,
  );
  return {
    element,
    pick: (timeS) => {
      if (!element.open) return;
      when.input.value = rideClock(timeS);
      when.say(undefined);
    },
  };
}
