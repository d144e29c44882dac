import { describe, expect, it } from 'vitest';
import type { Adjustment } from '../../src/adjustments/adjustment.ts';
import { adjustmentNotes } from '../../src/adjustments/adjustment-notes.ts';

const turn: Adjustment = {
  at: '2026-05-02T18:30:00Z',
  parameter: 'cable-tension',
  amount: 1,
  unit: 'clicks',
  note: '',
};
const hanger: Adjustment = { ...turn, at: '2026-05-03T09:00:00Z', parameter: 'hanger', amount: null, unit: 'done' };
const rides = [
  { startMs: Date.UTC(2026, 4, 1, 7), durationS: 7200 },
  { startMs: Date.UTC(2026, 4, 6, 7), durationS: 7200 },
];
function notes(
  adjustments: readonly Adjustment[],
  actuation: 'cable' | 'electronic' = 'cable',
  together = true,
): string[] {
  const one = { adjustments, firstMs: 0, lastMs: 0 };
  const groups = together ? [one] : adjustments.map((adjustment) => ({ ...one, adjustments: [adjustment] }));
  return adjustmentNotes(groups, rides, { adjustments, bike: { actuation } });
}

describe('adjustmentNotes', () => {
  it('says nothing of one adjustment between two rides', () => {
    expect(notes([turn])).toEqual([]);
    expect(notes([turn, hanger], 'cable', false)).toEqual([]);
  });

  it('says what was changed between the same two rides, one part named once', () => {
    const later = { ...turn, at: '2026-05-03T18:30:00Z', amount: 2 };
    expect(notes([turn, hanger])).toEqual([
      'Cable tension and derailleur hanger were changed with no judged shift between them: what followed cannot be shared out between them.',
    ]);
    expect(notes([turn, later])[0]).toMatch(/^Cable tension was changed twice with no judged shift between:/);
    expect(notes([turn, later, hanger])[0]).toMatch(/^Cable tension twice and derailleur hanger were changed/);
  });

  it('points out an entry made twice', () => {
    const again = { ...turn, at: '2026-05-02T20:30:00+02:00', note: 'the same' };
    expect(notes([turn, again])).toContain(
      'Cable tension of 2026-05-02 18:30 UTC is entered twice, the same each time, and counts once: take out the rest, or mend the time of what was done again.',
    );
  });

  it('names what can hardly be meant, and what no ride follows', () => {
    expect(notes([turn], 'electronic')[0]).toMatch(/a bike with electronic actuation has no cable-tension/);
    expect(notes([{ ...turn, parameter: 'index-offset', unit: 'steps' }])[0]).toMatch(/has no index-offset/);
    const late = { ...turn, at: '2062-05-02T18:30:00Z' };
    expect(notes([late])[0]).toMatch(/no ride yet since.*long after the last ride: see whether its date is right/);
    expect(notes([late, late]).filter((note) => /no ride yet since/.test(note))).toHaveLength(1);
  });

  it('asks of a look neither what it did nor for a ride since', () => {
    const late = { ...turn, at: '2026-05-09T18:30:00Z' };
    expect(notes([late])).toHaveLength(1);
    expect(adjustmentNotes([], rides, { adjustments: [{ ...late, amount: 0 }], bike: { actuation: 'cable' } })).toEqual(
      [],
    );
  });

  it('asks whether far more than is turned at one time was meant', () => {
    expect(notes([{ ...turn, amount: -40 }])[0]).toBe(
      'Cable tension of 2026-05-02 18:30 UTC: 40 clicks are much for one time: see whether the amount is right.',
    );
    expect(notes([{ ...turn, amount: 12 }]).join()).not.toContain('much for one time');
  });

  it('does not make a slip of an entry that is simply newer than every ride', () => {
    const fresh = notes([{ ...turn, at: '2026-05-20T18:30:00Z' }]);
    expect(fresh).toEqual(['Cable tension of 2026-05-20 18:30 UTC: no ride yet since, so none tells what it did.']);
  });
});
