import { expect, it } from 'vitest';
import { stepList } from '../../src/report/words/step-list.ts';

const action = 'See how far the screw lets the derailleur go. Then leave the barrel as it is.';
const start = 'Do it before anything else is turned.';

it('says how to begin in the first of several steps, whose beginning it is, and beside a single one', () => {
  const [first, second] = ['See how far the screw lets the derailleur go.', 'Then leave the barrel as it is.'];
  expect(stepList({ steps: [first, second], action, start })).toEqual({
    steps: [`${first} Begin: ${start}`, second],
    start: null,
  });
  expect(stepList({ steps: [first], action: first, start })).toEqual({ steps: [first], start });
});

it('takes the action for the only step where an older engine wrote none', () => {
  for (const steps of [undefined, []]) expect(stepList({ steps, action, start })).toEqual({ steps: [action], start });
});

it('says no second time that nothing needs to be done', () => {
  const idle = 'Nothing needs to be turned.';
  expect(stepList({ steps: [action], action, start: '' })).toEqual({ steps: [action], start: null });
  const [first, second] = ['Leave everything as it is.', 'Ride on.'];
  expect(stepList({ steps: [first], action: first, start: idle })).toEqual({ steps: [first], start: null });
  expect(stepList({ steps: [first, second], action, start: idle })).toEqual({ steps: [first, second], start: null });
});
