import { expect, it } from 'vitest';
import { causes } from '../../src/diagnosis/causes.ts';
import { nextStep } from '../../src/diagnosis/next-step/next-steps.ts';
import { partsOfStep } from '../../src/report/words/parts-of-step.ts';

const suggested = (parameter: string, ...steps: string[]) => ({ parameter, steps, action: steps.join(' '), start: '' });

it('a step has work on the part that it is about, and on those that it has looked at before', () => {
  const parts = (electronic: boolean) =>
    Object.fromEntries(
      causes.flatMap((cause) => {
        if (cause === 'no-fault') return [];
        const { parameter, action } = nextStep(cause, electronic);
        return [[cause, partsOfStep(suggested(parameter, action))]];
      }),
    );
  expect(parts(false)).toEqual({
    'cable-tension-low': ['cable-tension', 'cable-and-housing'],
    'cable-tension-high': ['cable-tension', 'cable-and-housing'],
    'low-limit-tight': ['low-limit'],
    'low-limit-loose': ['low-limit', 'hanger'],
    'high-limit-tight': ['high-limit'],
    'high-limit-loose': ['high-limit', 'hanger'],
    'pulley-gap-small': ['pulley-gap'],
    'pulley-gap-large': ['pulley-gap'],
    'hanger-bent': ['hanger'],
    'cable-friction': ['cable-and-housing'],
    'worn-drivetrain': ['chain'],
  });
  expect(parts(true)).toMatchObject({ 'cable-tension-low': ['index-offset'], 'cable-friction': [] });
});

it('a step of several sentences has work on each that it names, and none on what is left as it is', () => {
  expect(
    partsOfStep(
      suggested(
        'hanger',
        'Look for damage to hanger, derailleur and frame, then have the hanger checked with a gauge.',
        'Then see on a stand how far the low limit screw lets the derailleur go.',
      ),
    ),
  ).toEqual(['hanger', 'low-limit']);
  expect(
    partsOfStep(
      suggested(
        'cable-tension',
        'Leave the cable and housing as it is: looked at and found right (2026-05-01). See next whether it is too high a cable tension.',
      ),
    ),
  ).toEqual(['cable-tension']);
  expect(partsOfStep(suggested('none', 'Leave everything as it is.'))).toEqual([]);
});
