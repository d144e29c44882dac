import { freshId } from '../dom/fresh-id.ts';
import { listen, make } from '../dom/make.ts';

/** Asks before something that cannot be taken back, or is hardly meant. Resolves true only where the reader says yes. */
export function ask(question: string, detail: string, yes: string, no = 'Keep it'): Promise<boolean> {
  return new Promise((resolve) => {
    const title = freshId('question');
    const dialog = make(
      'dialog',
      { class: 'ask', 'aria-labelledby': title },
      make('h2', { id: title }, question),
      make('p', {}, detail),
    );
    const answer = (value: string) => ({ click: () => dialog.close(value) });
    // The harmless answer has the focus: a key pressed in haste takes nothing away.
    const keep = listen(make('button', { type: 'button', class: 'plain', autofocus: true }, no), answer(''));
    dialog.append(
      make(
        'p',
        { class: 'row' },
        listen(make('button', { type: 'button', class: 'is-danger' }, yes), answer('yes')),
        keep,
      ),
    );
    // on the way to another page the question is no longer asked
    const leave = (): void => dialog.close('');
    window.addEventListener('popstate', leave);
    dialog.addEventListener('close', () => {
      window.removeEventListener('popstate', leave);
      dialog.remove();
      resolve(dialog.returnValue === 'yes');
    });
    document.body.append(dialog);
    dialog.showModal();
  });
}
