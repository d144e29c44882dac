import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Adjustment } from '../../src/adjustments/adjustment.ts';
import { inOrderOfTime } from '../../src/adjustments/in-order-of-time.ts';

const made = (at: string, parameter: Adjustment['parameter'], amount: number | null) => ({ at, parameter, amount });
const log = [
  made('2026-04-01T08:00:00Z', 'wheel', null),
  made('2026-04-12T18:30:00Z', 'cable-tension', -1),
  made('2026-04-12T18:30:00Z', 'cable-tension', 2),
  made('2026-04-12T18:30:00Z', 'hanger', null),
  made('2026-04-12T18:30:00.500Z', 'chain', null),
];

it('puts adjustments in one order, whatever order they are given in', () => {
  fc.assert(
    fc.property(fc.shuffledSubarray(log, { minLength: log.length }), (given) => {
      expect(inOrderOfTime(given)).toEqual(log);
    }),
  );
});
