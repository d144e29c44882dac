import { listen } from './make.ts';

/** Lets Escape, pressed anywhere in a form, do what its way out does. */
export const onEscape = <Kind extends HTMLElement>(form: Kind, leave: () => void): Kind =>
  listen(form, {
    keydown: (event) => {
      // while a word is being composed Escape belongs to the composing
      if (event.key !== 'Escape' || event.isComposing) return;
      event.preventDefault();
      leave();
    },
  });
