import { adjustmentWords } from '../../src/adjustments/parameter-words.ts';
import { turningWays } from '../../src/adjustments/turning-words.ts';
import type { LoggedAdjustment } from '../api/answers.ts';
import { field } from '../dom/labelled-field.ts';
import { make } from '../dom/make.ts';
import { typedNumber } from '../words/typed-number.ts';
import type { TurningAdvice } from './turning-advice.ts';

/** What is wrong with how far or which way: with which field, in words. */
export interface TurnFault {
  readonly key: 'amount' | 'way';
  readonly text: string;
}

const makeAmount = (start: LoggedAdjustment | undefined): HTMLInputElement =>
  make('input', {
    name: 'amount',
    // not of the type number: in many browsers that takes a decimal comma for nothing
    type: 'text',
    inputmode: 'decimal',
    autocomplete: 'off',
    value: start?.amount ? Math.abs(start.amount) : '',
  });

/** What turning one way does: "anticlockwise, more tension". */
const senseWords = (parameter: string, unit: string, amount: 1 | -1): string =>
  /\((.*)\)$/.exec(adjustmentWords({ parameter, amount, unit }))?.[1] ?? '';

/** Whether something was turned, aligned or replaced, or only looked at. */
const LOOKED = 'looked';

const makeKind = (start: LoggedAdjustment | undefined): HTMLSelectElement =>
  make(
    'select',
    { name: 'kind' },
    make('option', { value: 'changed' }, ''),
    make('option', { value: LOOKED, selected: start?.amount === 0 }, 'Looked at or measured, found right'),
  );

/**
 * Whether something was changed or only looked at, how far it was turned, and which way. A sign is easily the wrong one, so nobody is asked for it: the way is chosen in words and begins
 * with what is advised.
 */
export class TurnFields {
  readonly kind: HTMLSelectElement;
  readonly amount: HTMLInputElement;
  readonly way = make('select', { name: 'way' });
  readonly elements: readonly HTMLElement[];
  readonly #label = make('span', {});
  readonly #start: LoggedAdjustment | undefined;
  readonly #advice: TurningAdvice | null;
  #fitted: string | null = null;

  constructor(start: LoggedAdjustment | undefined, advice: TurningAdvice | null) {
    this.#start = start;
    this.#advice = advice;
    this.kind = makeKind(start);
    this.amount = makeAmount(start);
    this.elements = [
      field('Changed or looked at', this.kind),
      field('Amount', this.amount),
      field('Which way', this.way),
    ];
    this.elements[1].querySelector('label')!.replaceChildren(this.#label);
  }

  /** Nothing for what is done, not turned; 0 for what was only looked at. */
  read(parameter: string, unit: string): { readonly amount: number | null; readonly turnFault: TurnFault | null } {
    if (this.kind.value === LOOKED) return { amount: 0, turnFault: null };
    if (unit === 'done' || this.amount.value.trim() === '') return { amount: null, turnFault: null };
    const far = typedNumber(this.amount.value);
    if (Number.isNaN(far))
      return {
        amount: null,
        turnFault: { key: 'amount', text: `Put in how many ${unit} as a number, such as 1 or 0.5.` },
      };
    const amount = far === 0 || this.way.value === '' ? null : far * Number(this.way.value);
    if (far < 0)
      return {
        amount: null,
        turnFault: { key: 'amount', text: `Put in how many ${unit} without a sign: the way is chosen beside it.` },
      };
    if (far === 0) return { amount: 0, turnFault: null };
    const ways = turningWays(parameter);
    return amount === null && ways
      ? { amount, turnFault: { key: 'way', text: `Choose which way: ${ways.plus} or ${ways.minus}.` } }
      : { amount, turnFault: null };
  }

  /** Fits label and choices to what is turned. */
  fit(parameter: string, unit: string): void {
    this.kind.options[0].text =
      unit === 'steps'
        ? 'Moved'
        : unit !== 'done'
          ? 'Turned'
          : parameter === 'hanger'
            ? 'Aligned or replaced'
            : 'Replaced';
    const turned = unit !== 'done' && this.kind.value !== LOOKED;
    for (const element of this.elements.slice(1)) element.hidden = !turned;
    for (const control of [this.amount, this.way]) control.required = turned;
    this.#label.textContent = `Amount in ${unit}`;
    if (!turned || this.#fitted === parameter) return;
    this.#fitted = parameter;
    const chosen = this.#firstSense(parameter);
    this.way.replaceChildren(
      make('option', { value: '' }, 'Choose'),
      ...([1, -1] as const).map((sense) =>
        make('option', { value: sense, selected: sense === chosen }, senseWords(parameter, unit, sense)),
      ),
    );
  }

  /** As it was logged, else as advised; 0 where neither says. */
  #firstSense(parameter: string): number {
    if (this.#start?.parameter === parameter) return Math.sign(this.#start.amount ?? 0);
    return this.#advice?.parameter === parameter ? this.#advice.sense : 0;
  }
}
