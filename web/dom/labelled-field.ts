import { freshId } from './fresh-id.ts';
import { make } from './make.ts';

/** A control under its label, with a hint below it where there is one. */
export function field(label: string, control: HTMLElement, hint?: HTMLElement): HTMLElement {
  control.id = freshId('field');
  if (hint) {
    hint.id = freshId('hint');
    control.setAttribute('aria-describedby', hint.id);
  }
  return make('div', { class: 'field' }, make('label', { for: control.id }, label), control, hint);
}
