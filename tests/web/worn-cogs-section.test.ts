import { expect, it } from 'vitest';
import { cogsSection } from '../../web/bike/cogs-section.ts';
import { madeUpFleet } from '../browser/made-up/made-up-bikes.ts';
import { skipped } from '../report/made-skips.ts';
import { stubPage } from './stub-page.ts';

stubPage();

const { detail } = madeUpFleet()[0];
const cogs = [skipped(15, 9, 2), skipped(18, 0, 4)];

const chartsOf = (state: object, report: object): (string | null)[] => {
  const bike = {
    ...detail,
    state: { ...detail.state, sinceAdjustment: false, ...state },
    report: { ...detail.report, ...report },
  };
  const section = cogsSection({ bike, picks: new Map() } as never);
  return [...(section?.querySelectorAll('figure h3') ?? [])].map(({ textContent }) => textContent);
};

it('shows skips cog by cog where any were seen, first of a bike that shows its wear by them', () => {
  const both = ['Trouble by cog and direction', 'Skips by cog'];
  expect(chartsOf({ topCause: 'hanger-bent', skips: 9 }, { skipsByCog: cogs })).toEqual(both);
  expect(chartsOf({ topCause: 'worn-drivetrain', skips: 9 }, { skipsByCog: cogs })).toEqual([...both].reverse());
  expect(chartsOf({ topCause: 'worn-drivetrain', skips: 0 }, { skipsByCog: [skipped(15, 0, 2)] })).toEqual([both[0]]);
  expect(chartsOf({}, { skipsByCog: undefined })).toEqual([both[0]]);
});

it('shows skips of rides without gear records, of which no shift is judged', () => {
  const unjudged = detail.report!.cogs.map((cog) => ({ ...cog, shifts: 0, troubleRate: null }));
  expect(chartsOf({}, { cogs: unjudged, skipsByCog: cogs })).toEqual(['Skips by cog']);
  expect(chartsOf({}, { cogs: unjudged, skipsByCog: [] })).toEqual([]);
});

it('says beside skips that those on parts which were replaced since are among them', () => {
  const skipping = { before: { skips: 9, hours: 2 }, after: { skips: 0, hours: 1.3 } };
  const replaced = {
    ...detail.report!.adjustments[0],
    at: '2026-05-03T10:00:00.000Z',
    parameter: 'chain',
    unit: 'done',
  };
  const said = (made: object): string => {
    const report = { ...detail.report, skipsByCog: cogs, adjustments: [{ ...replaced, amount: null, ...made }] };
    const picks = new Map([['opening', 'all']]);
    return cogsSection({ bike: { ...detail, report }, picks } as never)?.textContent ?? '';
  };
  expect(said({ skipping })).toContain(
    'replaced on 3 May 2026, 9 skips seen in 2.0 hours of pedalling before, 0 in 1.3 hours since.',
  );
  const words = 'replaced since are among them';
  expect(said({ skipping: null })).not.toContain(words);
  expect(said({ skipping: { ...skipping, before: { skips: 0, hours: 2 } } })).not.toContain(words);
});
