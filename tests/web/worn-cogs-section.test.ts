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
