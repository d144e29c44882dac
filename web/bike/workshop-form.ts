import type { BikeDetail } from '../api/answers.ts';
import { setAside } from '../api/bikes.ts';
import { listen, make } from '../dom/make.ts';
import { onEscape } from '../dom/on-escape.ts';
import { textField } from '../dom/text-field.ts';
import { fieldTime } from '../words/dates.ts';

interface FormPlan {
  readonly bike: Pick<BikeDetail, 'id' | 'workshopMark'>;
  readonly saved: () => void;
  readonly cancelled: () => void;
}

/** The day in the reader's own time zone, for a date field. */
const today = (): string => fieldTime(new Date()).slice(0, 10);

/** Form that sets a bike aside for the workshop, or changes what is said of that. */
export function workshopForm({ bike: { id, workshopMark }, saved, cancelled }: FormPlan): HTMLFormElement {
  const on = workshopMark ? (workshopMark.on ?? '') : today();
  const note = textField(
    make('input', { name: 'note', maxlength: 200, value: workshopMark?.note ?? '', autocomplete: 'off' }),
    'Why, or what to do (may be left empty)',
  );
  const day = textField(
    make('input', { name: 'on', type: 'date', max: today(), value: on }),
    'Since (may be left empty)',
  );
  const fault = make('p', { class: 'fault', role: 'alert' });
  const submit = make('button', { type: 'submit' }, workshopMark ? 'Save' : 'Set it aside');
  const cancel = listen(make('button', { type: 'button', class: 'plain' }, 'Cancel'), { click: cancelled });
  const save = (event: Event): void => {
    event.preventDefault();
    const { badInput, rangeOverflow } = day.input.validity;
    day.say(badInput ? 'There is no such day.' : rangeOverflow ? 'This day is still to come.' : undefined);
    if (badInput || rangeOverflow) {
      day.input.focus();
      return;
    }
    submit.disabled = true;
    setAside(id, { on: day.input.value || null, note: note.input.value.trim() }).then(saved, (error: Error) => {
      submit.disabled = false;
      fault.textContent = error.message;
      submit.focus();
    });
  };
  const form = make(
    'form',
    { class: 'form panel', novalidate: true, 'aria-label': 'Set aside for the workshop' },
    make('h2', {}, 'Set aside for the workshop'),
    make('div', { class: 'form-row' }, note.element, day.element),
    fault,
    make('div', { class: 'row' }, submit, cancel),
  );
  return onEscape(listen(form, { submit: save }), cancelled);
}
