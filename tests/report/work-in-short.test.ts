import { expect, it } from 'vitest';
import { workInShort } from '../../src/report/words/work-in-short.ts';

const yet = 'Turn nothing yet: a fault is likely (75 %), but not yet sure. A look tells more than a ride made for it.';
const look = 'A hanger gauge tells within a minute.';
const step = { steps: [yet], action: yet, start: look, parameter: 'none', looksFirst: 'hanger' };

it('names the look with which a step begins that turns nothing', () => {
  expect(workInShort(step, 'unnamed')).toBe(`${yet} ${look}`);
  expect(workInShort({ ...step, steps: [yet, 'Then ride.'] }, 'unnamed')).toBe(`${yet} Begin: ${look}`);
});

it('is the first sentence of any other step alone', () => {
  const { looksFirst: _, ...without } = step;
  expect(workInShort(without, 'unnamed')).toBe(yet);
  expect(workInShort({ ...step, parameter: 'low-limit' }, 'named')).toBe(yet);
  expect(workInShort({ ...step, firstAbout: 'high-limit' }, 'named')).toBe(yet);
  expect(workInShort({ ...without, steps: undefined, action: 'Leave it.' }, 'sound')).toBe('Leave it.');
});

it('leaves out why a bike that shifts well is left alone, which its reasons say, and nothing else', () => {
  const first = 'Turn nothing: the trouble did not show in the rides since 2026-05-06. It may come back.';
  const told = { steps: [first], action: first, start: 'Log what was done.', parameter: 'none' };
  const inShort = 'Turn nothing. It may come back.';
  for (const kind of ['not-shown', 'put-right'] as const) {
    expect(workInShort({ ...told, inShort }, kind)).toBe(inShort);
    expect(workInShort(told, kind)).toBe(first);
  }
  expect(workInShort({ ...told, inShort }, 'named')).toBe(first);
});
