import { describe, expect, it } from 'vitest';
import { measuredParameters, replacedParts } from '../../../src/adjustments/adjustment.ts';
import { causes } from '../../../src/diagnosis/causes.ts';
import { faultCauses } from '../../../src/simulate/setting/fault-causes.ts';
import { workUnits } from '../../../src/simulate/setting/work-done.ts';

// The simulator imports nothing of the engine that judges its rides; only the words must be the same.
describe('words of the simulator', () => {
  it('name the same causes as the diagnosis', () => {
    expect([...faultCauses]).toEqual([...causes]);
  });

  it('name the same work as the adjustments file, in the same units', () => {
    const units = { ...measuredParameters, ...Object.fromEntries(replacedParts.map((part) => [part, 'done'])) };
    expect(workUnits).toEqual(units);
  });
});
