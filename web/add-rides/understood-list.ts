import type { ReadFile } from '../api/answers.ts';
import { make } from '../dom/make.ts';
import { type IconName, icon } from '../page/icons.ts';
import { saidOfFile } from '../words/said-of-file.ts';

/** The kinds of what is said of a file, each with a sign and a word. */
const kinds = {
  understood: { sign: 'tick', words: 'Understood: ', look: 'is-understood' },
  missing: { sign: 'cross', words: 'Missing: ', look: 'is-not-understood' },
  unreadable: { sign: 'cross', words: 'Not understood: ', look: 'is-not-understood' },
  remark: { sign: 'remark', words: 'Remark: ', look: 'is-remark' },
} as const satisfies Record<string, { sign: IconName; words: string; look: string }>;

/** What was understood of each file, what was not and what else is to be said, with a sign and a word for each; null without files. */
export function understoodList(files: readonly ReadFile[]): HTMLElement | null {
  if (files.length === 0) return null;
  const lines = (kind: keyof typeof kinds, texts: readonly string[]): HTMLElement[] =>
    texts.map((text) =>
      make(
        'li',
        { class: kinds[kind].look },
        icon(kinds[kind].sign),
        make('span', { class: 'out-of-sight' }, kinds[kind].words),
        text,
      ),
    );
  return make(
    'ul',
    { class: 'understood' },
    ...files.map(({ name, understood, notUnderstood, remarks }) =>
      make(
        'li',
        {},
        make('h3', { class: 'file-name' }, name),
        make(
          'ul',
          {},
          ...lines('understood', understood),
          ...lines(
            understood.length > 0 ? 'missing' : 'unreadable',
            notUnderstood.map((text) => saidOfFile(name, text)),
          ),
          ...lines('remark', remarks),
        ),
      ),
    ),
  );
}
