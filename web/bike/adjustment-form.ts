import { adjustmentSchema } from '../../src/adjustments/adjustment.ts';
import { doubtfulAdjustment } from '../../src/adjustments/doubtful-adjustment.ts';
import { upperFirst } from '../../src/numeric/upper-first.ts';
import type { Adjustment } from '../api/answers.ts';
import { listen, make } from '../dom/make.ts';
import { ask } from '../page/ask.ts';
import { adjustmentFault } from './adjustment-fault.ts';
import { type AdjustmentFields, type FieldsPlan, makeAdjustmentFields } from './adjustment-fields.ts';
import { againstAdvice, type TurningAdvice } from './turning-advice.ts';

/** Without an entry to change a new one is made. */
interface FormPlan extends FieldsPlan {
  readonly saveWord: string;
  readonly save: (adjustment: Adjustment) => Promise<unknown>;
  readonly saved: () => void;
  readonly cancelled: () => void;
}

/** What is wrong with an entry: with which field, in words. */
interface EntryFault {
  readonly key: string;
  readonly text: string;
}

/** The entry that stands in the fields, or what is wrong with it. */
function checkEntry(
  filledIn: ReturnType<AdjustmentFields['read']>,
  { actuation, guessed }: Pick<FieldsPlan, 'actuation' | 'guessed'>,
): { entry: Adjustment } | { fault: EntryFault } {
  if (filledIn.turnFault) return { fault: filledIn.turnFault };
  const checked = adjustmentSchema.safeParse(filledIn);
  if (!checked.success) {
    const { path, message } = checked.error.issues[0];
    const key = String(path[0]);
    return { fault: { key, text: adjustmentFault(key, message, filledIn) } };
  }
  const doubt = doubtfulAdjustment(checked.data, guessed ? null : actuation, Date.now());
  return doubt ? { fault: { key: doubt.key, text: doubt.message } } : { entry: checked.data };
}

/** False where an entry goes against the advice and is not meant to. */
async function meant(entry: Adjustment, advice: TurningAdvice | null): Promise<boolean> {
  const doubt = againstAdvice(entry, advice);
  if (doubt === null) return true;
  return ask('Turned the other way than advised?', `${doubt} Log what was really done.`, 'Log it so', 'Change it');
}

/** Form for one entry of the log. What will be stored is spelled out while it is filled in. */
export function adjustmentForm(plan: FormPlan): HTMLFormElement {
  const { elements, read, follow, refuse } = makeAdjustmentFields(plan);
  const submit = make('button', { type: 'submit' }, plan.saveWord);
  const cancel = listen(make('button', { type: 'button', class: 'plain' }, 'Cancel'), { click: plan.cancelled });
  const save = (event: Event): void => {
    event.preventDefault();
    const checked = checkEntry(read(), plan);
    if ('fault' in checked) {
      refuse(upperFirst(checked.fault.text), checked.fault.key);
      return;
    }
    submit.disabled = true;
    meant(checked.entry, plan.advice ?? null)
      .then(async (sure) => {
        if (sure) await plan.save(checked.entry).then(plan.saved);
        else submit.disabled = false;
      })
      .catch((error: Error) => {
        submit.disabled = false;
        if (!form.contains(document.activeElement)) submit.focus();
        refuse(error.message);
      });
  };
  const name = plan.start ? 'Change the adjustment' : 'Log an adjustment';
  const form = make(
    'form',
    { class: 'form panel', novalidate: true, 'aria-label': name },
    elements,
    make('div', { class: 'row' }, submit, cancel),
  );
  listen(form, { submit: save, input: follow });
  follow();
  return form;
}
