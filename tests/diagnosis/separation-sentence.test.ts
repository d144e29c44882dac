import { expect, it } from 'vitest';
import { separationSentence } from '../../src/diagnosis/check-ride/separate-causes.ts';

it('says what is told apart where no shift tells it, so that a test by hand does not stand as advice', () => {
  const between = ['no fault', 'a high limit screw too far out'];
  const hand = 'On the smallest cog, the guide pulley should stand a hair outside it.';
  expect(separationSentence('', [hand], between)).toBe(
    `Shifts hardly tell no fault from a high limit screw too far out; a look does. ${hand}`,
  );
  expect(separationSentence('Shifts onto the 10 tell most.', [hand], between)).toBe(
    `Shifts onto the 10 tell most. ${hand}`,
  );
  expect(separationSentence('', [], between)).toBe('');
});
