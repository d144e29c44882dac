import type { Adjustment } from '../../adjustments/adjustment.ts';
import type { Cause } from '../causes.ts';

/** The adjustments that touch a cause: what they changed and what they did not speaks for or against it. */
const touching: Readonly<Record<Cause, readonly Adjustment['parameter'][]>> = {
  'no-fault': [],
  'cable-tension-low': ['cable-tension', 'index-offset', 'cable-and-housing'],
  'cable-tension-high': ['cable-tension', 'index-offset', 'cable-and-housing'],
  'low-limit-tight': ['low-limit'],
  'low-limit-loose': ['low-limit'],
  'high-limit-tight': ['high-limit'],
  'high-limit-loose': ['high-limit'],
  'pulley-gap-small': ['pulley-gap'],
  'pulley-gap-large': ['pulley-gap'],
  'hanger-bent': ['hanger', 'cable-tension', 'index-offset'],
  'cable-friction': ['cable-and-housing'],
  'worn-drivetrain': ['chain', 'cassette', 'wheel'],
};

/** Whether an adjustment of a parameter touches a cause. */
export const touches = (cause: Cause, parameter: Adjustment['parameter']): boolean =>
  touching[cause].includes(parameter);
