import { parseHTML } from 'linkedom';
import { expect, it, vi } from 'vitest';
import { beforeAfter, topOfAll } from '../../web/charts/before-after.ts';
import { sampleReport } from '../report/sample-report.ts';

const { document, Node } = parseHTML('<!doctype html><html><body></body></html>');
vi.stubGlobal('document', document);
vi.stubGlobal('Node', Node);

const [made] = sampleReport().adjustments;
const tally = (shifts: number, late: number) => ({
  ...{ shifts, late, missed: 0, overshot: 0, ghostShifts: 0, troubleRate: late / shifts, low: 0, high: 0.2 },
});
/** To larger cogs 16 of 40 went wrong before and 2 of 40 after, to smaller 2 and 16: 18 of 80 each time in all. */
const turned = {
  ...made,
  parameter: 'cable-tension',
  before: tally(80, 18),
  after: tally(80, 18),
  cogs: [
    { teeth: 21, direction: 'to-larger' as const, before: tally(40, 16), after: tally(40, 2), probabilityBetter: 1 },
    { teeth: 21, direction: 'to-smaller' as const, before: tally(40, 2), after: tally(40, 16), probabilityBetter: 0 },
  ],
};
const texts = (svg: Element): (string | null)[] =>
  [...svg.querySelectorAll('text')].map(({ textContent }) => textContent?.replace(/\s/g, ' ') ?? null);

/** What stands at the foot: the ends of the scale, and what a bar is. */
const scaleTo = (top: string): string[] => ['0 %', 'bar: 95 %', top];

it('shows each direction by itself where the work moves one alone, which all shifts together hide', () => {
  const svg = beforeAfter(turned, 1);
  const larger = ['To larger cogs', 'Before', '40 %', 'After', '5 %'];
  expect(texts(svg)).toEqual([...larger, 'To smaller cogs', 'Before', '5 %', 'After', '40 %', ...scaleTo('100 %')]);
  expect(svg.getAttribute('aria-label')?.replace(/\s/g, ' ')).toBe(
    'To larger cogs. Before: 40 % trouble; after: 5 % trouble. To smaller cogs. Before: 5 % trouble; after: 40 % trouble',
  );
  // every interval lies within the axis that all share
  expect(topOfAll([turned])).toBeGreaterThan(0.5);
});

it('shows all shifts together of other work', () => {
  const gap = { ...turned, parameter: 'pulley-gap' };
  expect(texts(beforeAfter(gap, 1))).toEqual(['Before', '23 %', 'After', '23 %', ...scaleTo('100 %')]);
  expect(topOfAll([gap])).toBe(0.2);
});

it('shows of a limit screw what is told of it: the shifts onto its end cog', () => {
  const end = (shifts: number, lost: number) => ({ asked: shifts, shifts, reached: shifts, trouble: 0, lost });
  const endCog = { teeth: 51, end: 'past-largest' as const, before: end(5, 1), after: end(19, 0) };
  const limit = { ...turned, parameter: 'low-limit', endCog };
  expect(texts(beforeAfter(limit, 1))).toEqual(['Onto the 51', 'Before', '20 %', 'After', '0 %', ...scaleTo('100 %')]);
  const notYet = { ...limit, endCog: { ...endCog, after: end(0, 0) } };
  expect(texts(beforeAfter(notYet, 1))).toContain('none');
});

it('shows of a new chain how often it skipped in an hour, on an axis of its own', () => {
  const skipping = {
    ...{ before: { skips: 18, hours: 0.9 }, after: { skips: 0, hours: 2 }, probabilityFewer: 1, hoursStillNeeded: 0 },
  };
  const chain = { ...turned, parameter: 'chain', skipping };
  const svg = beforeAfter(chain, 0.3);
  // exact limits of 18 and of none, Garwood 1936: 28.45 in 0.9 h, 3.69 in 2 h
  expect(texts(svg)).toEqual(['Skips an hour', 'Before', '20', 'After', '0', '0', 'bar: 95 %', '32']);
  expect(svg.getAttribute('aria-label')).toBe('Skips an hour. Before: 20; after: 0');
  // and leaves the axis of the others alone
  expect(topOfAll([chain, { ...turned, parameter: 'pulley-gap' }])).toBe(0.2);
  const none = { ...skipping, before: { skips: 0, hours: 0.9 } };
  expect(texts(beforeAfter({ ...chain, skipping: none }, 1))).toContain('23 %');
});
