import { type Child, listen, make } from './make.ts';

interface FileButtonPlan {
  /** File endings to offer, as in an input's `accept`. */
  readonly accept: string;
  readonly keep?: string;
  readonly look?: string;
  readonly take: (file: File) => void;
}

/** A button that lets one file be chosen, as often as it is pressed. */
export function fileButton({ accept, keep, look = 'plain', take }: FileButtonPlan, ...words: Child[]): HTMLElement {
  const input = make('input', { type: 'file', accept, hidden: true });
  const button = make('button', { type: 'button', class: look, 'data-keep': keep }, ...words);
  listen(button, { click: () => input.click() });
  listen(input, {
    change: () => {
      const [file] = input.files ?? [];
      // ready for the same file again, once it is mended
      input.value = '';
      if (file) take(file);
    },
  });
  return make('span', {}, input, button);
}
