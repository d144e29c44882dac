import { expect, it } from 'vitest';
import { rowReason } from '../../web/bikes/row-reason.ts';

it('writes its dates as all others on the page are written', () => {
  const summary = (state: object) =>
    ({
      bike: { actuation: 'cable' },
      state: { underWay: false, dangers: [], reasons: [], topCause: null, probability: null, ...state },
      adjustmentMarks: [{ at: '2026-05-02T12:30:00Z', parameter: 'cable-tension' }],
      trend: [{ at: '2026-04-13T12:00:00Z' }],
    }) as never;
  const since = 'The trouble did not show in the rides since 2026-04-13.';
  expect(rowReason(summary({ reasons: [since] }))).toBe('The trouble did not show in the rides since 13 April 2026.');
  expect(rowReason(summary({ dangers: ['What was done on 2026-05-02 opened it.'], reasons: [since] }))).toBe(
    'What was done on 2 May 2026 opened it.',
  );
});
