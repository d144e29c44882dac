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
  const why = 'the trouble did not show in the rides since 2026-05-06 (0 of 60 judged shifts went wrong)';
  const ofStep = (first: string, kind: 'not-shown' | 'put-right' | 'named' = 'not-shown') =>
    workInShort({ steps: [first], action: first, start: 'Log what was done.', parameter: 'none' }, kind);
  expect(ofStep(`Turn nothing: ${why}. It may come back.`)).toBe('Turn nothing. It may come back.');
  expect(ofStep(`Turn nothing else: ${why}. It may come back.`)).toBe('Turn nothing else. It may come back.');
  expect(ofStep('Turn nothing: since what was logged on 2026-05-05 the bike shifts well.', 'put-right')).toBe(
    'Turn nothing.',
  );
  expect(ofStep('Look at the low limit first.')).toBe('Look at the low limit first.');
  expect(ofStep(`Turn nothing: ${why}.`, 'named')).toBe(`Turn nothing: ${why}.`);
});
