import { describe, expect, it } from 'vitest';
import { firstStepIsAbout, stepIsAbout } from '../../src/report/words/step-is-about.ts';

describe('the part that a step is about', () => {
  it('is what is turned, else what is looked at first', () => {
    expect(stepIsAbout({ parameter: 'pulley-gap', looksFirst: 'cable-tension' })).toBe('pulley-gap');
    expect(stepIsAbout({ parameter: 'none', looksFirst: 'cable-tension' })).toBe('cable-tension');
    expect(stepIsAbout({ parameter: 'none' })).toBeNull();
  });

  it('is for its first sentence that of the work which comes before all else', () => {
    const step = { parameter: 'pulley-gap', looksFirst: 'cable-tension' };
    expect(firstStepIsAbout({ ...step, firstAbout: 'hanger' })).toBe('hanger');
    expect(firstStepIsAbout({ ...step, firstAbout: 'none' })).toBeNull();
    expect(firstStepIsAbout(step)).toBe('cable-tension');
    expect(firstStepIsAbout({ parameter: 'pulley-gap' })).toBe('pulley-gap');
    expect(firstStepIsAbout({ parameter: 'none' })).toBeNull();
  });
});
