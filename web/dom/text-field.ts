import { freshId } from './fresh-id.ts';
import { type Child, make } from './make.ts';

/** A field for text with its label, its hint and room for what is wrong with it. */
export interface TextField {
  readonly element: HTMLElement;
  readonly input: HTMLInputElement;
  /** Marks the field as at fault and says why; undefined: nothing is wrong with it. */
  say(fault: string | undefined): void;
}

/** Puts an input into a field. A screen reader hears hint and fault with it. */
export function textField(input: HTMLInputElement, label: string, hint: Child = null): TextField {
  input.id = freshId(input.name);
  const hintId = freshId('hint');
  const wrong = make('p', { class: 'fault', id: freshId('fault') });
  input.setAttribute('aria-describedby', `${hintId} ${wrong.id}`);
  return {
    element: make(
      'div',
      { class: 'field' },
      make('label', { for: input.id }, label),
      input,
      make('p', { class: 'hint', id: hintId }, hint),
      wrong,
    ),
    input,
    say: (fault) => {
      wrong.textContent = fault ?? '';
      if (fault === undefined) input.removeAttribute('aria-invalid');
      else input.setAttribute('aria-invalid', 'true');
    },
  };
}
