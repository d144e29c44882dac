import type { Bike } from '../api/answers.ts';
import { freshId } from '../dom/fresh-id.ts';
import { type Child, make } from '../dom/make.ts';

type Key = 'name' | 'chainrings' | 'cassette' | 'rolloutMm' | 'tyre' | 'cogPitchMm';

const numbersIn = (text: string): number[] => (text.match(/\d+(\.\d+)?/g) ?? []).map(Number);
const numberOrNothing = (text: string): number | undefined =>
  text.trim() === '' ? undefined : Number(text.replace(',', '.'));

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

function makeInputs(start: Partial<Bike>): Readonly<Record<Key, HTMLInputElement>> {
  const input = (
    name: Key,
    value: string,
    attributes: Record<string, string | number | boolean> = {},
  ): HTMLInputElement => make('input', { name, value, autocomplete: 'off', ...attributes });
  return {
    name: input('name', start.name ?? '', { maxlength: 120 }),
    chainrings: input('chainrings', start.chainrings?.join(' ') ?? ''),
    cassette: input('cassette', start.cassette?.join(' ') ?? ''),
    rolloutMm: input('rolloutMm', String(start.rolloutMm ?? ''), { inputmode: 'decimal' }),
    tyre: input('tyre', start.tyre ?? '', { placeholder: '57-622' }),
    cogPitchMm: input('cogPitchMm', String(start.cogPitchMm ?? ''), { inputmode: 'decimal' }),
  };
}

/** Fields for a drivetrain. Teeth may be written with any sign between them. */
export function makeDrivetrainFields(start: Partial<Bike>): DrivetrainFields {
  const inputs = makeInputs(start);
  const faults = {} as Record<Key, HTMLElement>;
  const field = (key: Key, label: string, hint: Child = null): HTMLElement => {
    const control = inputs[key];
    control.id = freshId(key);
    const hintId = freshId('hint');
    faults[key] = make('p', { class: 'fault', id: freshId('fault') });
    control.setAttribute('aria-describedby', `${hintId} ${faults[key].id}`);
    return make(
      'div',
      { class: 'field' },
      make('label', { for: control.id }, label),
      control,
      make('p', { class: 'hint', id: hintId }, hint),
      faults[key],
    );
  };
  const actuation = actuationChoice(start.actuation ?? 'cable');
  const counted = make('p', { class: 'hint', 'aria-live': 'polite' });
  const count = (): void => {
    const cogs = numbersIn(inputs.cassette.value).length;
    counted.textContent = cogs > 0 ? `${cogs} cogs, smallest first` : 'Teeth of each cog, smallest first';
  };
  const general = make('p', { class: 'fault', role: 'alert' });
  inputs.cassette.addEventListener('input', count);
  count();
  return {
    elements: [
      make('div', { class: 'form-row' }, field('name', 'Name of the bike'), actuation),
      make(
        'div',
        { class: 'form-row' },
        field('chainrings', 'Chainrings', 'Teeth, one to three rings'),
        field('cassette', 'Cassette', counted),
      ),
      make(
        'div',
        { class: 'form-row' },
        field('tyre', 'Tyre', 'Width and bead seat in mm, as on its side wall'),
        field(
          'rolloutMm',
          'or rollout in mm',
          'One turn of the wheel. Leave both empty to have it measured from the rides',
        ),
        field('cogPitchMm', 'Cog pitch in mm', 'Leave empty for the usual one for so many cogs'),
      ),
      general,
    ],
    read: () => {
      const value = {
        name: inputs.name.value.trim(),
        chainrings: numbersIn(inputs.chainrings.value),
        cassette: numbersIn(inputs.cassette.value),
        rolloutMm: numberOrNothing(inputs.rolloutMm.value),
        tyre: inputs.tyre.value.trim() || undefined,
        cogPitchMm: numberOrNothing(inputs.cogPitchMm.value),
        actuation: actuation.querySelector<HTMLInputElement>('input:checked')?.value,
      };
      return Object.fromEntries(Object.entries(value).filter(([, one]) => one !== undefined));
    },
    show: (found) => {
      for (const key of Object.keys(inputs) as Key[]) {
        const fault = found.find((one) => one.key === key);
        faults[key].textContent = fault ? fault.text : '';
        inputs[key].toggleAttribute('aria-invalid', false);
        if (fault) inputs[key].setAttribute('aria-invalid', 'true');
      }
      general.textContent = found.find((one) => !(one.key in inputs))?.text ?? '';
      const first = found.find((one) => one.key in inputs);
      if (first) inputs[first.key as Key].focus();
    },
  };
}
