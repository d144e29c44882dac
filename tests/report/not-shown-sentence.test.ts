import { expect, it } from 'vitest';
import { bikeState } from '../../src/report/state/bike-state.ts';
import { verdictSentence } from '../../src/report/words/verdict-words.ts';
import { sampleReport, sampleWellSince } from './sample-report.ts';

/** A bike whose newest rides shift well, with its one entry as sure to have helped as told, between the rides before and these or earlier. */
function report(probabilityBetter: number, adjusted: boolean) {
  const { diagnosis, adjustments, ...rest } = sampleReport();
  const suggestion = { ...diagnosis.suggestion, namesCause: false, parameter: 'none' };
  return {
    ...rest,
    adjustments: adjustments.map((made) => ({
      ...made,
      ...{ parameter: 'hanger' as const, amount: null, unit: 'done', together: null, probabilityBetter },
    })),
    diagnosis: { ...diagnosis, suggestion, shiftsWellSince: { ...sampleWellSince, adjusted } },
  };
}
const reasons = (...of: Parameters<typeof report>): string => bikeState(report(...of), []).reasons.join(' ');

it('names what helped for sure where hardly anything goes wrong since, though it is not the usual cure', () => {
  const said = verdictSentence(report(0.99, true));
  expect(said).toMatch(
    /It got better with what was done on 2026-04-12 \(derailleur hanger aligned or replaced\), though that is not the usual cure: before it, cable tension too low was likeliest/,
  );
  expect(said).not.toMatch(/nothing that is logged/);
  expect(reasons(0.99, true)).not.toMatch(/log it/);
});

it('says of what helped, but left trouble in the rides after it, that it does not account for the rest', () => {
  expect(verdictSentence(report(0.99, false))).toMatch(
    /It got better with what was done on 2026-04-12 .* but shifts still went wrong after that, and nothing logged since accounts for the rest\.$/,
  );
  expect(reasons(0.99, false)).toMatch(/If something was done before those rides, log it\./);
});

it('says of work that went the right way and left a little that it was the right way, and asks for no entry', () => {
  const one = report(0.99, false);
  const said = (amount: number) => {
    const adjustments = one.adjustments.map((made) => ({
      ...made,
      ...{ parameter: 'cable-tension' as const, amount, unit: 'clicks' as const },
    }));
    return { ...one, adjustments };
  };
  expect(verdictSentence(said(2))).toMatch(
    /It got better with what was done on 2026-04-12 \(cable tension \+2 clicks\), which was the right way; before it,/,
  );
  expect(bikeState(said(2), []).reasons.join(' ')).not.toMatch(/log it/);
  expect(verdictSentence(said(-2))).toMatch(/nothing logged since accounts for the rest/);
  expect(bikeState(said(-2), []).reasons.join(' ')).toMatch(/log it/);
});

it('says that nothing logged accounts for it where nothing helped for sure', () => {
  expect(verdictSentence(report(0.6, true))).toMatch(/nothing that is logged accounts for that; before it,/);
  expect(reasons(0.6, true)).toMatch(/If something was done before those rides, log it\./);
});

it('says of what was done after those rides that none tells of it', () => {
  const one = report(0.6, true);
  const [made] = one.adjustments;
  const later = { ...made, at: '2026-05-20T18:00:00.000Z', group: made.group + 1 };
  const said = (shifts: number): string =>
    verdictSentence({ ...one, adjustments: [made, { ...later, after: { ...later.after, shifts } }] });
  expect(said(0)).toBe(
    `${verdictSentence(one)} No ride tells yet of what was done on 2026-05-20 (derailleur hanger aligned or replaced).`,
  );
  expect(said(40)).not.toMatch(/No ride tells/);
});
