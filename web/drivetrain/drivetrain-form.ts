import { bikeSchema } from '../../src/drivetrain/bike.ts';
import { schemaIssueWords } from '../../src/errors/schema-issue-words.ts';
import { upperFirst } from '../../src/numeric/upper-first.ts';
import type { Bike } from '../api/answers.ts';
import { listen, make } from '../dom/make.ts';
import { type DrivetrainFault, makeDrivetrainFields } from './drivetrain-fields.ts';
import { noOtherCogs } from './no-other-cogs.ts';

interface FormPlan {
  readonly start: Partial<Bike>;
  /** Cogs of a guess, in teeth, that no ride shows: they are not in `start`. */
  readonly unseen?: readonly number[];
  readonly saveWord: string;
  readonly save: (bike: Bike) => Promise<unknown>;
  readonly saved: () => void;
  readonly cancelled?: () => void;
}

const wantingFault = (text: string | null | undefined): DrivetrainFault[] => (text ? [{ key: 'cassette', text }] : []);

/** What is wrong with a drivetrain, field by field. */
const schemaFaults = (issues: readonly Parameters<typeof schemaIssueWords>[0][], value: unknown): DrivetrainFault[] =>
  issues.map((issue) => ({
    key: String(issue.path[0]),
    text:
      issue.path[0] === 'name' && issue.code === 'too_small'
        ? 'Give the bike a name.'
        : `${upperFirst(schemaIssueWords(issue, value, []).allowed)}.`,
  }));

/** The drivetrain to look over and put right. */
export function drivetrainForm(plan: FormPlan): { element: HTMLFormElement } {
  const { start, unseen = [] } = plan;
  const fields = makeDrivetrainFields(start);
  const others = unseen.length > 0 ? noOtherCogs(unseen, start.cassette?.length ?? 0) : null;
  const submit = make('button', { type: 'submit' }, plan.saveWord);
  const element = listen(
    make(
      'form',
      { class: 'form', novalidate: true, 'aria-label': 'Drivetrain' },
      fields.elements,
      others?.element,
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
        const faults = checked.success
          ? wantingFault(others?.faultOf(checked.data.cassette.length))
          : schemaFaults(checked.error.issues, value);
        fields.show(faults);
        if (!checked.success || faults.length > 0) return;
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
