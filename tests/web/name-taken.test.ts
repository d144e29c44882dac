import { expect, it } from 'vitest';
import { nameTaken } from '../../web/drivetrain/name-taken.ts';

const named = (id: string, name: string) => ({ id, bike: { name } as never });
const bikes = [named('a', 'Juniper'), named('b', 'Plover'), named('c', 'Plover')];

it('refuses the new name that another bike has, and no name that a bike has already', () => {
  const [juniper, plover] = bikes;
  expect(nameTaken(juniper, { name: 'Plover' }, bikes)).toMatch(/“Plover” already/);
  expect(nameTaken(juniper, { name: 'Chough' }, bikes)).toBeNull();
  expect(nameTaken(juniper, { name: 'Juniper' }, bikes)).toBeNull();
  // two that are called alike from before can be changed otherwise
  expect(nameTaken(plover, { name: 'Plover' }, bikes)).toBeNull();
});
