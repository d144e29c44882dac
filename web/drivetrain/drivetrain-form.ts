import { bikeSchema } from '../../src/drivetrain/bike.ts';
import { schemaIssueWords } from '../../src/errors/schema-issue-words.ts';
import { upperFirst } from '../../src/numeric/upper-first.ts';
import type { Bike } from '../api/answers.ts';
import { listen, make } from '../dom/make.ts';
import { makeDrivetrainFields } from './drivetrain-fields.ts';

interface FormPlan {
  readonly start: Partial<Bike>;
  readonly saveWord: string;
  readonly save: (bike: Bike) => Promise<unknown>;
  readonly saved: () => void;
  readonly cancelled?: () => void;
}

/** The drivetrain to look over and put right. */
export function drivetrainForm(plan: FormPlan): { element: HTMLFormElement } {
  const fields = makeDrivetrainFields(plan.start);
  const submit = make('button', { type: 'submit' }, plan.saveWord);
  const element = listen(
    make(
      'form',
      { class: 'form', novalidate: true, 'aria-label': 'Drivetrain' },
      fields.elements,
      make(
        'div',
        { class: 'row' },
        submit,
        plan.cancelled &&
          listen(make('button', { type: 'button', class: 'plain' }, 'Cancel'), { click: plan.cancelled }),
      ),
    ),
    {
      submit: (event) => {
        event.preventDefault();
        const value = fields.read();
        const checked = bikeSchema.safeParse(value);
        if (!checked.success) {
          fields.show(
            checked.error.issues.map((issue) => ({
              key: String(issue.path[0]),
              text:
                issue.path[0] === 'name' && issue.code === 'too_small'
                  ? 'Give the bike a name.'
                  : `${upperFirst(schemaIssueWords(issue, value, []).allowed)}.`,
            })),
          );
          return;
        }
        fields.show([]);
        submit.disabled = true;
        plan
          .save(checked.data)
          .then(plan.saved)
          .catch((error: Error) => fields.show([{ key: '', text: error.message }]))
          .finally(() => {
            submit.disabled = false;
          });
      },
    },
  );
  return { element };
}
