import { expect, it } from 'vitest';
import { likelihoodWord } from '../../web/words/likelihood-word.ts';

it('calls possible only what is about as likely as not, and what is likelier wrong by its name', () => {
  expect([0.95, 0.75, 0.5, 0.4, 0.2].map(likelihoodWord)).toEqual([
    'almost certainly',
    'probably',
    'more likely than not',
    'possibly',
    'probably not',
  ]);
});
