import { parseHTML } from 'linkedom';
import { describe, expect, it, vi } from 'vitest';
import { figureInShort, rowFigure } from '../../web/bikes/row-figure.ts';

const { document, Node } = parseHTML('<!doctype html><html><body></body></html>');
vi.stubGlobal('document', document);
vi.stubGlobal('Node', Node);

const bike = (state: object) =>
  ({
    state: {
      topCause: 'cable-tension-low',
      troubleRate: 0.12,
      low: 0.08,
      high: 0.17,
      judgedShifts: 1500,
      judgedRides: 3,
      since: 'first-ride',
      sinceAt: null,
      skips: 41,
      chainsLost: 0,
      worstCog: null,
      ...state,
    },
  }) as never;
const shown = (state: object) => {
  const figure = rowFigure(bike(state));
  return [figure.querySelector('strong')?.textContent, figure.querySelector('span')?.textContent];
};

describe('the big figure of a bike', () => {
  it('is its trouble, with the cog that stands out and the chains lost', () => {
    const worstCog = { teeth: 51, direction: 'to-larger', shifts: 9, troubleRate: 0.5, low: 0.2, high: 0.8 };
    expect(shown({ worstCog, chainsLost: 2 })).toEqual([
      '12\u00a0%',
      'of 1,500 shifts in trouble over 3 ridesChain lost twiceWorst: 50\u00a0% of 9 onto the 51 from smaller cogs95\u00a0% interval: 8 to 17\u00a0% of all, 20 to 80\u00a0% onto the 51',
    ]);
    expect(figureInShort(bike({}))).toBe('12\u00a0% of 1,500 in trouble');
  });

  it('is how often the chain skipped where wear is likeliest, since no shift shows it', () => {
    const worn = { topCause: 'worn-drivetrain' };
    expect(shown(worn)).toEqual(['41', 'skips of the chain over 3 rides12\u00a0% of 1,500 shifts in trouble']);
    expect(shown({ ...worn, troubleRate: null, judgedRides: 0, skips: 1 })).toEqual([
      '1',
      'skip of the chainNo shift judged yet',
    ]);
    expect(shown({ ...worn, skips: 0 })[0]).toBe('12\u00a0%');
    expect(figureInShort(bike(worn))).toBe('skipped 41 times');
  });

  it('says where no shift was judged', () => {
    expect(shown({ troubleRate: null, chainsLost: 1 })).toEqual(['–', 'no shift judged yetChain lost once']);
    expect(figureInShort(bike({ troubleRate: null }))).toBe('no shift judged yet');
  });
});
