import { expect, it } from 'vitest';
import { workInShort } from '../../src/report/words/work-in-short.ts';

const yet = 'Turn nothing yet: a fault is likely (75 %), but not yet sure. A look tells more than a ride made for it.';
const look = 'A hanger gauge tells within a minute.';
const step = { steps: [yet], action: yet, start: look, parameter: 'none', looksFirst: 'hanger' };

it('names the look with which a step begins that turns nothing', () => {
  expect(workInShort(step)).toBe(`${yet} ${look}`);
  expect(workInShort({ ...step, steps: [yet, 'Then ride.'] })).toBe(`${yet} Begin: ${look}`);
});

it('is the first sentence of any other step alone', () => {
  const { looksFirst: _, ...without } = step;
  expect(workInShort(without)).toBe(yet);
  expect(workInShort({ ...step, parameter: 'low-limit' })).toBe(yet);
  expect(workInShort({ ...step, firstAbout: 'high-limit' })).toBe(yet);
  expect(workInShort({ ...without, steps: undefined, action: 'Leave it.' })).toBe('Leave it.');
});
