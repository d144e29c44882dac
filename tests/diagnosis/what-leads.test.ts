import { expect, it } from 'vitest';
import type { Cause } from '../../src/diagnosis/causes.ts';
import { LIKELY_ENOUGH, NAMED_ALONE } from '../../src/diagnosis/verdict-limits.ts';
import { hangsWhetherFault, noneIsLikely, noneLeads, standsAlone } from '../../src/diagnosis/what-leads.ts';

const ranked = (cause: Cause, probability: number) => [
  { cause, probability },
  { cause: 'pulley-gap-large' as const, probability: (1 - probability) / 2 },
];
const open = { between: ['no-fault', 'hanger-bent'] as const };

it('a bike is in order by the limit from which on a fault is mended', () => {
  expect(noneLeads(ranked('no-fault', 0.4))).toBe(true);
  expect(noneLeads(ranked('hanger-bent', 0.4))).toBe(false);
  expect(noneIsLikely(ranked('no-fault', LIKELY_ENOUGH))).toBe(true);
  expect(noneIsLikely(ranked('no-fault', LIKELY_ENOUGH - 0.01))).toBe(false);
  expect(noneIsLikely(ranked('hanger-bent', 0.9))).toBe(false);
});

it('a cause stands alone unless it is too unlikely, or an assumption turns it', () => {
  expect(standsAlone(ranked('hanger-bent', NAMED_ALONE), null)).toBe(true);
  expect(standsAlone(ranked('hanger-bent', NAMED_ALONE - 0.01), null)).toBe(false);
  expect(standsAlone(ranked('hanger-bent', 0.9), open)).toBe(false);
});

it('it hangs on an assumption whether there is a fault only where that turns the verdict to none, or from it', () => {
  expect(hangsWhetherFault(open)).toBe(true);
  expect(hangsWhetherFault({ between: ['low-limit-loose', 'hanger-bent'] })).toBe(false);
  expect(hangsWhetherFault(null)).toBe(false);
});
