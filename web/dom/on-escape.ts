import { listen } from './make.ts';

/** Lets Escape, pressed anywhere in a form or a panel, do what its way out does, unless something within had a use for it. */
export const onEscape = <Kind extends HTMLElement>(element: Kind, leave: () => void): Kind =>
  listen(element, {
    keydown: (event) => {
      // while a word is being composed Escape belongs to the composing
      if (event.key !== 'Escape' || event.isComposing || event.defaultPrevented) return;
      event.preventDefault();
      leave();
    },
  });
