import { adjustmentSchema, measuredParameters, replacedParts } from '../../src/adjustments/adjustment.ts';
import { doubtfulAdjustment, hasParameter } from '../../src/adjustments/doubtful-adjustment.ts';
import { adjustmentWords, parameterName } from '../../src/report/words/parameter-words.ts';
import type { Adjustment, Bike, LoggedAdjustment } from '../api/answers.ts';
import { freshId } from '../dom/fresh-id.ts';
import { listen, make } from '../dom/make.ts';
import { fieldTime } from '../words/dates.ts';
import { upperFirst } from '../words/upper-first.ts';

interface FormPlan {
  /** An entry to change; without it a new one is made. */
  readonly start?: LoggedAdjustment;
  readonly parameter?: string;
  readonly actuation: Bike['actuation'];
  readonly saveWord: string;
  readonly save: (adjustment: Adjustment) => Promise<unknown>;
  readonly saved: () => void;
  readonly cancelled: () => void;
}

const unitOf = (parameter: string): string => (measuredParameters as Record<string, string>)[parameter] ?? 'done';

const parameters = [...(Object.keys(measuredParameters) as (keyof typeof measuredParameters)[]), ...replacedParts];

/** Parameters that this bike has; the others would only confuse. */
const offered = (actuation: Bike['actuation']): string[] =>
  parameters.filter((parameter) => hasParameter(actuation, parameter));

function field(label: string, control: HTMLElement, hint?: HTMLElement): HTMLElement {
  control.id = freshId('field');
  if (hint) {
    hint.id = freshId('hint');
    control.setAttribute('aria-describedby', hint.id);
  }
  return make('div', { class: 'field' }, make('label', { for: control.id }, label), control, hint);
}

/** Form for one entry of the log. What will be stored is spelled out while it is filled in. */
export function adjustmentForm(plan: FormPlan): HTMLFormElement {
  const { start } = plan;
  const choices = offered(plan.actuation);
  const first = start?.parameter ?? (choices.includes(plan.parameter ?? '') ? plan.parameter! : choices[0]);
  if (!choices.includes(first)) choices.unshift(first);
  const parameter = make(
    'select',
    { name: 'parameter' },
    ...choices.map((name) =>
      make('option', { value: name, selected: name === first }, upperFirst(parameterName(name))),
    ),
  );
  const amount = make('input', {
    name: 'amount',
    type: 'number',
    step: 'any',
    min: -100,
    max: 100,
    value: start?.amount ?? '',
  });
  const at = make('input', {
    name: 'at',
    type: 'datetime-local',
    required: true,
    value: fieldTime(start ? new Date(start.at) : new Date()),
  });
  const note = make('input', { name: 'note', maxlength: 2000, value: start?.note ?? '' });
  const senses = make('p', { class: 'hint' });
  const amountLabel = make('span', {});
  const amountField = field('Amount', amount, senses);
  amountField.querySelector('label')!.replaceChildren(amountLabel);
  const preview = make('p', { class: 'hint', 'aria-live': 'polite' });
  const fault = make('p', { class: 'fault', role: 'alert', hidden: true });

  const read = () => {
    const unit = unitOf(parameter.value);
    return {
      at: at.value ? new Date(at.value).toISOString() : '',
      parameter: parameter.value,
      amount: unit === 'done' || amount.value === '' ? null : Number(amount.value),
      unit,
      note: note.value.trim(),
    };
  };
  const follow = (): void => {
    const unit = unitOf(parameter.value);
    const counted = unit !== 'done';
    amountField.hidden = !counted;
    amount.required = counted;
    amountLabel.textContent = `Amount in ${unit}`;
    const sense = (sign: 1 | -1): string =>
      /\((.*)\)$/.exec(adjustmentWords({ parameter: parameter.value, amount: sign, unit }))?.[1] ?? '';
    senses.textContent = counted ? `+ is ${sense(1)}; − is ${sense(-1)}.` : '';
    const now = read();
    preview.textContent = counted && now.amount === null ? '' : `Will be logged as: ${adjustmentWords(now)}.`;
    fault.hidden = true;
  };
  const refuse = (text: string, control?: HTMLElement): void => {
    fault.textContent = text;
    fault.hidden = false;
    for (const one of [parameter, amount, at, note]) one.removeAttribute('aria-invalid');
    control?.setAttribute('aria-invalid', 'true');
    control?.focus();
  };
  const controls: Record<string, HTMLElement> = { parameter, amount, at, note };
  const submit = make('button', { type: 'submit' }, plan.saveWord);
  const form = listen(
    make(
      'form',
      { class: 'form panel', novalidate: true, 'aria-label': start ? 'Change the adjustment' : 'Log an adjustment' },
      make('div', { class: 'form-row' }, field('What was done', parameter), amountField, field('When', at)),
      field('Note', note),
      preview,
      fault,
      make(
        'div',
        { class: 'row' },
        submit,
        listen(make('button', { type: 'button', class: 'plain' }, 'Cancel'), { click: plan.cancelled }),
      ),
    ),
    {
      submit: (event) => {
        event.preventDefault();
        const checked = adjustmentSchema.safeParse(read());
        if (!checked.success) {
          const { path, message } = checked.error.issues[0];
          refuse(upperFirst(message), controls[String(path[0])]);
          return;
        }
        const doubt = doubtfulAdjustment(checked.data, plan.actuation, Date.now());
        if (doubt) {
          refuse(upperFirst(doubt.message), controls[doubt.key]);
          return;
        }
        submit.disabled = true;
        plan
          .save(checked.data)
          .then(plan.saved)
          .catch((error: Error) => {
            submit.disabled = false;
            refuse(error.message);
          });
      },
    },
  );
  form.addEventListener('input', follow);
  follow();
  return form;
}
