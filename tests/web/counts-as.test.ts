import { describe, expect, it } from 'vitest';
import { countsAs } from '../../web/ride/ride-event.ts';

describe('countsAs', () => {
  it('follows the judgements as the counts of the ride do', () => {
    expect(countsAs({ kind: 'ghost', verdict: 'rejected' })).toBeNull();
    expect(countsAs({ kind: 'late', verdict: 'rejected' })).toBe('clean');
    expect(countsAs({ kind: 'clean', verdict: 'rejected' })).toBe('unjudged');
    expect(countsAs({ kind: 'ghost', verdict: 'confirmed' })).toBe('ghost');
    expect(countsAs({ kind: 'skip', verdict: null })).toBe('skip');
  });
});
