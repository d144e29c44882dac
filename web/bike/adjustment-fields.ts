import { measuredParameters, replacedParts } from '../../src/adjustments/adjustment.ts';
import { hasParameter } from '../../src/adjustments/doubtful-adjustment.ts';
import { adjustmentWords, parameterName } from '../../src/adjustments/parameter-words.ts';
import { upperFirst } from '../../src/numeric/upper-first.ts';
import type { Bike, LoggedAdjustment } from '../api/answers.ts';
import { field } from '../dom/labelled-field.ts';
import { make } from '../dom/make.ts';
import { fieldMoment, fieldTime } from '../words/dates.ts';
import { ownZone } from '../words/time-zone.ts';
import { type TurnFault, TurnFields } from './turn-fields.ts';
import type { TurningAdvice } from './turning-advice.ts';

const unitOf = (parameter: string): string => (measuredParameters as Record<string, string>)[parameter] ?? 'done';

const parameters = [...(Object.keys(measuredParameters) as (keyof typeof measuredParameters)[]), ...replacedParts];

/** Parameters that this bike has; the others would only confuse. A guess may be wrong, so there they come last. */
function offered({ actuation, guessed }: Pick<FieldsPlan, 'actuation' | 'guessed'>): string[] {
  const own = parameters.filter((parameter) => hasParameter(actuation, parameter));
  return guessed ? [...own, ...parameters.filter((parameter) => !hasParameter(actuation, parameter))] : own;
}

/** What stands in the fields, unchecked. */
interface FilledIn {
  readonly at: string;
  readonly parameter: string;
  /** How far and which way together; null where either is wanting. */
  readonly amount: number | null;
  /** What is wrong with how far or which way, which the amount does not show; null where nothing is. */
  readonly turnFault: TurnFault | null;
  readonly unit: string;
  readonly note: string;
}

/** The fields of an adjustment. */
export interface AdjustmentFields {
  readonly elements: readonly HTMLElement[];
  read(): FilledIn;
  /** Fits the fields to what was chosen, and spells out what will be stored. */
  follow(): void;
  /** Says what is wrong; `key` names the field at fault, which gets the focus. */
  refuse(text: string, key?: string): void;
}

/** What the fields start with, and of which bike the entry is. */
export interface FieldsPlan {
  /** An entry to change. */
  readonly start?: LoggedAdjustment;
  readonly parameter?: string;
  /** The moment that a new entry begins with; now where there is none. */
  readonly at?: string;
  readonly actuation: Bike['actuation'];
  /** Whether that was guessed; an entry of the other kind then sets it right. */
  readonly guessed: boolean;
  /** What the next step asks for, to start with; null where it turns nothing. */
  readonly advice?: TurningAdvice | null;
}

/** A select of what can be adjusted on this bike, with `wanted` chosen where the bike has it. */
function parameterChoice({ start, parameter: wanted, ...bike }: FieldsPlan): HTMLSelectElement {
  const choices = offered(bike);
  const first = start?.parameter ?? (choices.includes(wanted ?? '') ? wanted! : choices[0]);
  if (!choices.includes(first)) choices.unshift(first);
  return make(
    'select',
    { name: 'parameter' },
    ...choices.map((name) =>
      make('option', { value: name, selected: name === first }, upperFirst(parameterName(name))),
    ),
  );
}

const makeMoment = (at: string | undefined): HTMLInputElement =>
  make('input', {
    name: 'at',
    type: 'datetime-local',
    required: true,
    // Without it the year takes six digits.
    max: '9999-12-31T23:59',
    value: fieldTime(at === undefined ? new Date() : new Date(at)),
  });

/** Says what is wrong and marks the control at fault, which gets the focus. */
function refuseIn(
  fault: HTMLElement,
  controls: Readonly<Record<string, HTMLElement>>,
  text: string,
  key: string,
): void {
  fault.textContent = text;
  fault.hidden = false;
  for (const one of Object.values(controls)) one.removeAttribute('aria-invalid');
  controls[key]?.setAttribute('aria-invalid', 'true');
  controls[key]?.focus();
}

/** What an entry says of a guessed actuation that it does not go with; empty where it does. */
function actuationDoubt({ actuation, guessed }: FieldsPlan, { parameter }: FilledIn): string {
  if (!guessed || hasParameter(actuation, parameter)) return '';
  return ` A bike with ${actuation} actuation has none. That was guessed: of the log, the last entry that only one kind of actuation has tells which it is.`;
}

/** Fields for one entry of the log. */
export function makeAdjustmentFields(plan: FieldsPlan): AdjustmentFields {
  const { start } = plan;
  const parameter = parameterChoice(plan);
  const turn = new TurnFields(start, plan.advice ?? null);
  const begunAt = start?.at ?? plan.at;
  const at = makeMoment(begunAt);
  const note = make('input', { name: 'note', maxlength: 2000, value: start?.note ?? '' });
  const preview = make('p', { class: 'hint', 'aria-live': 'polite' });
  const fault = make('p', { class: 'fault', role: 'alert', hidden: true });
  const read = (): FilledIn => {
    const unit = unitOf(parameter.value);
    return {
      at: fieldMoment(at.value, begunAt),
      parameter: parameter.value,
      ...turn.read(parameter.value, unit),
      unit,
      note: note.value.trim(),
    };
  };
  return {
    elements: [
      make(
        'div',
        { class: 'form-row' },
        field('What was done', parameter),
        ...turn.elements,
        field('When', at, make('p', { class: 'hint' }, `In this browser’s time zone, ${ownZone()}`)),
      ),
      field('Note', note),
      preview,
      fault,
    ],
    read,
    follow: () => {
      turn.fit(parameter.value, unitOf(parameter.value));
      const now = read();
      const awaited = now.unit !== 'done' && now.amount === null;
      preview.textContent = awaited ? '' : `Will be logged as: ${adjustmentWords(now)}.${actuationDoubt(plan, now)}`;
      fault.hidden = true;
    },
    refuse: (text, key = '') => refuseIn(fault, { parameter, amount: turn.amount, way: turn.way, at, note }, text, key),
  };
}
