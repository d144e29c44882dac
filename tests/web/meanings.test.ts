import { describe, expect, it } from 'vitest';
import { meanings } from '../../web/meanings/meanings.ts';
import { standingWords } from '../../web/words/state-words.ts';

const all = meanings.flatMap(({ words }) => words);

describe('what the words mean', () => {
  it('tells every outcome of a shift, by the contract’s bounds, and every adjuster that a step may name', () => {
    const of = (word: string): string => all.find((one) => one.word === word)?.meaning ?? '';
    expect(of('Clean')).toContain('within 1.5 turns');
    expect(of('Late')).toContain('up to 5 turns');
    expect(of('Missed')).toContain('within 5 turns');
    const named = all.map(({ word }) => word.toLowerCase()).join(', ');
    for (const word of [
      'overshot',
      'not judged',
      'unclear',
      'look it over first',
      'ghost shift',
      'lost chain',
      'skip',
      'barrel adjuster',
      'index offset',
    ])
      expect(named).toContain(word);
    for (const word of ['low limit', 'high limit', 'b-screw', 'hanger', 'guide pulley', 'check ride'])
      expect(named).toContain(word);
  });

  it('tells every state that a bike can be in', () => {
    const named = all.map(({ word }) => word);
    expect(named).toEqual(expect.arrayContaining(Object.values(standingWords).map(({ label }) => label)));
  });

  it('has no word twice, and each meaning is a sentence', () => {
    expect(new Set(all.map(({ word }) => word)).size).toBe(all.length);
    for (const { meaning } of all) expect(meaning).toMatch(/^[A-Z].*\.$/s);
  });
});
