import { adjustmentSchema } from '../../src/adjustments/adjustment.ts';
import { doubtfulAdjustment } from '../../src/adjustments/doubtful-adjustment.ts';
import type { Adjustment, Bike, LoggedAdjustment } from '../api/answers.ts';
import { listen, make } from '../dom/make.ts';
import { upperFirst } from '../words/upper-first.ts';
import { adjustmentFault } from './adjustment-fault.ts';
import { makeAdjustmentFields } from './adjustment-fields.ts';

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

/** Form for one entry of the log. What will be stored is spelled out while it is filled in. */
export function adjustmentForm(plan: FormPlan): HTMLFormElement {
  const { elements, read, follow, refuse } = makeAdjustmentFields(plan);
  const submit = make('button', { type: 'submit' }, plan.saveWord);
  const form = listen(
    make(
      'form',
      {
        class: 'form panel',
        novalidate: true,
        'aria-label': plan.start ? 'Change the adjustment' : 'Log an adjustment',
      },
      elements,
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
        const filledIn = read();
        const checked = adjustmentSchema.safeParse(filledIn);
        if (!checked.success) {
          const { path, message } = checked.error.issues[0];
          const key = String(path[0]);
          refuse(upperFirst(adjustmentFault(key, message, filledIn)), key);
          return;
        }
        const doubt = doubtfulAdjustment(checked.data, plan.actuation, Date.now());
        if (doubt) {
          refuse(upperFirst(doubt.message), doubt.key);
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
