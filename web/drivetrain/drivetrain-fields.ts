import { ascending } from 'd3-array';
import type { Bike } from '../api/answers.ts';
import { freshId } from '../dom/fresh-id.ts';
import { make } from '../dom/make.ts';
import { type TextField, textField } from '../dom/text-field.ts';
import { typedNumber } from '../words/typed-number.ts';

type Key = 'name' | 'chainrings' | 'cassette' | 'rolloutMm' | 'tyre' | 'cogPitchMm';

/** The teeth in a text, fewest first, whichever way round they were written. */
const teethIn = (text: string): number[] => (text.match(/\d+(\.\d+)?/g) ?? []).map(Number).sort(ascending);
const numberOrNothing = (text: string): number | undefined => (text.trim() === '' ? undefined : typedNumber(text));

/** Something wrong with the drivetrain; `key` names its field, or none of them where it is about the whole. */
export interface DrivetrainFault {
  readonly key: string;
  readonly text: string;
}

/** The fields of a drivetrain. */
export interface DrivetrainFields {
  readonly elements: readonly HTMLElement[];
  /** What stands in the fields, unchecked; empty ones are left out. */
  read(): Record<string, unknown>;
  /** Marks the fields at fault, and no others; the first of them gets the focus. */
  show(faults: readonly DrivetrainFault[]): void;
}

/** The two kinds of actuation to pick from. */
function actuationChoice(chosen: Bike['actuation']): HTMLFieldSetElement {
  const group = freshId('actuation');
  const radio = (value: Bike['actuation'], text: string): HTMLElement =>
    make(
      'label',
      { class: 'pick' },
      make('input', { type: 'radio', name: group, value, checked: chosen === value }),
      text,
    );
  return make(
    'fieldset',
    { class: 'field' },
    make('legend', {}, 'Actuation'),
    radio('cable', 'Cable'),
    radio('electronic', 'Electronic'),
  );
}

const rolloutHint = 'One turn of the wheel. Leave both empty to have it measured from rides with cadence';

function makeTextFields(start: Partial<Bike>): Readonly<Record<Key, TextField>> {
  const input = (
    name: Key,
    value: string,
    attributes: Record<string, string | number | boolean> = {},
  ): HTMLInputElement => make('input', { name, value, autocomplete: 'off', ...attributes });
  const decimal = (name: Key, value: number | undefined): HTMLInputElement =>
    input(name, String(value ?? ''), { inputmode: 'decimal' });
  const cassette = input('cassette', start.cassette?.join(' ') ?? '');
  return {
    name: textField(input('name', start.name ?? '', { maxlength: 120 }), 'Name of the bike'),
    chainrings: textField(
      input('chainrings', start.chainrings?.join(' ') ?? ''),
      'Chainrings',
      'Teeth, one to three rings',
    ),
    cassette: textField(cassette, 'Cassette', countedCogs(cassette)),
    tyre: textField(
      input('tyre', start.tyre ?? '', { placeholder: '57-622' }),
      'Tyre',
      'Width and bead seat in mm, as on its side wall',
    ),
    rolloutMm: textField(decimal('rolloutMm', start.rolloutMm), 'or rollout in mm', rolloutHint),
    cogPitchMm: textField(
      decimal('cogPitchMm', start.cogPitchMm),
      'Cog pitch in mm',
      'Leave empty for the usual one for so many cogs',
    ),
  };
}

/** Says how many cogs stand in the field, as it is filled in. */
function countedCogs(cassette: HTMLInputElement): HTMLElement {
  const counted = make('p', { class: 'hint', 'aria-live': 'polite' });
  const count = (): void => {
    const cogs = teethIn(cassette.value).length;
    counted.textContent = cogs > 0 ? `${cogs} cogs` : 'Teeth of each cog';
  };
  cassette.addEventListener('input', count);
  count();
  return counted;
}

function readFields(fields: Readonly<Record<Key, TextField>>, actuation: HTMLElement): Record<string, unknown> {
  const textOf = (key: Key): string => fields[key].input.value;
  const value = {
    name: textOf('name').trim(),
    chainrings: teethIn(textOf('chainrings')),
    cassette: teethIn(textOf('cassette')),
    rolloutMm: numberOrNothing(textOf('rolloutMm')),
    tyre: textOf('tyre').trim() || undefined,
    cogPitchMm: numberOrNothing(textOf('cogPitchMm')),
    actuation: actuation.querySelector<HTMLInputElement>('input:checked')?.value,
  };
  return Object.fromEntries(Object.entries(value).filter(([, one]) => one !== undefined));
}

/** Fields for a drivetrain. Teeth may be written with any sign between them. */
export function makeDrivetrainFields(start: Partial<Bike>): DrivetrainFields {
  const fields = makeTextFields(start);
  const { name, chainrings, cassette, tyre, rolloutMm, cogPitchMm } = fields;
  const actuation = actuationChoice(start.actuation ?? 'cable');
  const general = make('p', { class: 'fault', role: 'alert' });
  const row = (...elements: HTMLElement[]): HTMLElement => make('div', { class: 'form-row' }, elements);
  return {
    elements: [
      row(name.element, actuation),
      row(chainrings.element, cassette.element),
      row(tyre.element, rolloutMm.element, cogPitchMm.element),
      general,
    ],
    read: () => readFields(fields, actuation),
    show: (faults) => {
      for (const [key, field] of Object.entries(fields)) field.say(faults.find((one) => one.key === key)?.text);
      general.textContent = faults.find((one) => !(one.key in fields))?.text ?? '';
      const first = faults.find((one) => one.key in fields);
      if (first) fields[first.key as Key].input.focus();
    },
  };
}
