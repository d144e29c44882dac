import { describe, expect, it } from 'vitest';
import type { CogTrouble } from '../../src/report/cog-trouble.ts';
import { describeBeforeAfterByCog, describeTroubleByCog } from '../../src/report/words/cog-sentences.ts';

const cog = (teeth: number, direction: CogTrouble['direction'], shifts: number, trouble: number, more = {}) => ({
  teeth,
  direction,
  shifts,
  troubleRate: shifts > 0 ? trouble / shifts : null,
  low: 0,
  high: 1,
  ...more,
});

describe('what the chart of trouble by cog shows', () => {
  it('says first that a chain was lost, and does not pass over a cog with few shifts', () => {
    const cogs = [cog(11, 'to-smaller', 2, 2, { chainDrops: 3 }), cog(27, 'to-larger', 20, 1)];
    expect(describeTroubleByCog(cogs)).toBe(
      'Chain lost past the 11 (3 times). Most trouble: shifts onto 27 teeth from smaller cogs, 5 % of 20 judged. Of few shifts: onto 11 teeth from larger cogs 2 of 2 went wrong.',
    );
  });

  it('says of lost chains how many of them are sure, as the evidence does', () => {
    const past = (more: object): string => describeTroubleByCog([cog(11, 'to-smaller', 9, 0, more)]).split('.')[0];
    expect(past({ chainDrops: 2, sureChainDrops: 1 })).toBe('Chain lost past the 11 (once and perhaps once more)');
    expect(past({ chainDrops: 2, sureChainDrops: 0 })).toBe('Chain lost past the 11 (perhaps twice)');
    expect(past({ chainDrops: 2, sureChainDrops: 2 })).toBe('Chain lost past the 11 (twice)');
    expect(past({ chainDrops: 2 })).toBe('Chain lost past the 11 (twice)');
  });

  it('leaves out a faint cog that did no worse, and tells ghost shifts', () => {
    const cogs = [cog(13, 'to-larger', 4, 1, { ghostShifts: 2 }), cog(27, 'to-larger', 20, 10)];
    expect(describeTroubleByCog(cogs)).toBe(
      'Most trouble: shifts onto 27 teeth from smaller cogs, 50 % of 20 judged. 2 ghost shifts, onto 13 teeth.',
    );
    expect(describeTroubleByCog([cog(13, 'to-larger', 4, 0)])).toBe('Too few judged shifts on any cog to tell.');
    expect(describeTroubleByCog([cog(13, 'to-larger', 9, 0)])).toBe('No trouble on any cog with enough judged shifts.');
  });

  it('takes a handful of shifts for less sure than hundreds', () => {
    const cogs = [cog(13, 'to-larger', 5, 5), cog(27, 'to-larger', 200, 80), cog(30, 'to-larger', 1, 1)];
    expect(describeTroubleByCog(cogs)).toBe(
      'Most trouble: shifts onto 27 teeth from smaller cogs, 40 % of 200 judged.',
    );
  });
});

describe('what the chart of before and after shows', () => {
  it('says where it was worst before and is worst after, each with the other time', () => {
    const before = [cog(10, 'to-smaller', 7, 6), cog(51, 'to-larger', 16, 16)];
    const after = [cog(10, 'to-smaller', 5, 5), cog(51, 'to-larger', 5, 3)];
    expect(describeBeforeAfterByCog({ before, after })).toBe(
      'Worst before: onto 51 teeth from smaller cogs, 100 % of 16 judged; after: 60 % of 5 judged. Worst after: onto 10 teeth from larger cogs, 100 % of 5 judged; before: 86 % of 7 judged.',
    );
    expect(describeBeforeAfterByCog({ before: [before[1]], after: [after[1]] })).not.toContain('Worst after');
    const well = [cog(10, 'to-smaller', 7, 0)];
    expect(describeBeforeAfterByCog({ before: well, after: well })).toMatch(/^No trouble before or after/);
  });

  it('does not tell of a time in which no shift was judged', () => {
    const some = [cog(10, 'to-smaller', 7, 6)];
    const none = [cog(10, 'to-smaller', 0, 0)];
    const most = 'Most trouble: shifts onto 10 teeth from larger cogs, 86 % of 7 judged.';
    expect(describeBeforeAfterByCog({ before: none, after: some })).toBe(`No shift was judged before it. ${most}`);
    expect(describeBeforeAfterByCog({ before: some, after: none })).toBe(`No shift was judged after it yet. ${most}`);
  });
});
