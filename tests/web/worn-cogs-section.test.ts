import { describe, expect, it } from 'vitest';
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

describe('before and after a new chain', () => {
  const compared = {
    ...{ before: { skips: 10, hours: 6 }, after: { skips: 1, hours: 4 }, probabilityFewer: 0.98, hoursStillNeeded: 0 },
    cogs: { before: [skipped(15, 9, 2), skipped(18, 1, 4)], after: [skipped(15, 1, 2), skipped(18, 0, 2)] },
  };
  const chain = { ...detail.report!.adjustments[0], parameter: 'chain', amount: null, unit: 'done' };
  const shown = (skipping: object | null, report: object = {}): HTMLElement | null => {
    const adjustments = [{ ...chain, skipping }];
    const bike = { ...detail, report: { ...detail.report, skipsByCog: compared.cogs.before, adjustments, ...report } };
    return cogsSection({ bike, picks: new Map([['opening', 'adjustment']]) } as never);
  };
  const titles = (section: HTMLElement | null): (string | null)[] =>
    [...(section?.querySelectorAll('figure h3') ?? [])].map(({ textContent }) => textContent);
  const unjudged = detail.report!.cogs.map((cog) => ({ ...cog, shifts: 0, troubleRate: null }));

  it('shows the skips cog by cog first, then the shifts', () => {
    const section = shown(compared);
    expect(titles(section)).toEqual(['Skips by cog: chain replaced', 'Before and after: chain replaced']);
    expect(section?.textContent).toContain('Before: 10 skips seen on 2 cogs.');
    expect(section?.textContent).toContain('After: 1 skip seen. On 15 teeth');
  });

  it('shows them of a bike of which no shift is judged', () => {
    expect(titles(shown(compared, { cogs: unjudged }))).toEqual(['Skips by cog: chain replaced']);
  });

  it('shows none where no skip was seen, nothing ridden since, or a report is older than these counts', () => {
    const none = { before: [skipped(15, 0, 2)], after: [skipped(15, 0, 2)] };
    const shifts = ['Before and after: chain replaced'];
    expect(titles(shown({ ...compared, cogs: none }))).toEqual(shifts);
    expect(titles(shown({ ...compared, after: { skips: 0, hours: 0 } }))).toEqual(shifts);
    expect(titles(shown({ ...compared, cogs: undefined }))).toEqual(shifts);
    // and nothing to compare at all where no shift is judged either
    expect(titles(shown(null, { cogs: unjudged }))).toEqual(['Skips by cog']);
  });
});
