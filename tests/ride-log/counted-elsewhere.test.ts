import { expect, test } from 'vitest';
import { countedElsewhere } from '../../src/ride-log/counted-elsewhere.ts';

/** `wholes`: of each ride those that hold it. */
const elsewhere = (rides: string, wholes: Readonly<Record<string, string>>): Record<string, string> =>
  Object.fromEntries(countedElsewhere([...rides], (ride) => [...(wholes[ride] ?? '')]));

test.each<[string, string, Record<string, string>, Record<string, string>]>([
  ['rides apart', 'ab', {}, {}],
  ['a part that came last', 'ab', { b: 'a' }, { b: 'a' }],
  ['a part that came first', 'ba', { b: 'a' }, { b: 'a' }],
  ['a part of a part of a whole', 'cba', { c: 'ab', b: 'a' }, { c: 'a', b: 'a' }],
  ['a part of a part that does not count itself', 'cba', { c: 'b', b: 'a' }, { b: 'a' }],
  ['two that hold one another', 'ab', { a: 'b', b: 'a' }, { b: 'a' }],
  ['three that hold one another', 'cab', { a: 'bc', b: 'ac', c: 'ab' }, { a: 'c', b: 'c' }],
  ['two alike within a longer one', 'abw', { a: 'wb', b: 'wa' }, { a: 'w', b: 'w' }],
  ['a part of two, the one to be named first', 'cab', { c: 'ba' }, { c: 'b' }],
])('%s', (_, rides, wholes, expected) => {
  expect(elsewhere(rides, wholes)).toEqual(expected);
});

test('a ring of rides, which true records never make, loses not all of them', () => {
  expect(Object.keys(elsewhere('abc', { a: 'b', b: 'c', c: 'a' })).length).toBeLessThan(3);
});
