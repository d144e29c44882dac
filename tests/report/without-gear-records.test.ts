import { describe, expect, it } from 'vitest';
import { withoutGearRecords } from '../../src/report/without-gear-records.ts';
import { sampleReport } from './sample-report.ts';

const { diagnosis } = sampleReport();
const open = { ...diagnosis, suggestion: { ...diagnosis.suggestion, namesCause: false, parameter: 'none' } };
const ride = (gearSource: 'recorded' | 'inferred' | 'none') => ({ gearSource });

describe('rides without gear records', () => {
  it('are told that more of them will not let a shift be judged, and what would', () => {
    const { suggestion, checkRide } = withoutGearRecords(open, [ride('inferred'), ride('none')]);
    expect(suggestion.action).toContain('more rides with this recorder will not change that');
    expect(suggestion.start).toContain('lost drive, skips under load, and the cog the chain was on');
    expect(suggestion.verify).toContain('as a CSV ride with the column rear_teeth');
    expect(suggestion.cautions).toEqual(open.suggestion.cautions);
    expect([checkRide.blocks, checkRide.sentences]).toEqual([[], []]);
  });

  it('are asked for speed and cadence where they hold none', () => {
    expect(withoutGearRecords(open, [ride('none')]).suggestion.start).toMatch(/^Ride with speed and cadence recorded/);
  });

  it('keep the step of a verdict that names a cause', () => {
    expect(withoutGearRecords(diagnosis, [ride('inferred')]).suggestion).toEqual(diagnosis.suggestion);
  });

  it('change nothing beside a single ride with records, or where there is no ride', () => {
    expect(withoutGearRecords(open, [ride('inferred'), ride('recorded')])).toBe(open);
    expect(withoutGearRecords(open, [])).toBe(open);
  });
});
