import { expect, it } from 'vitest';
import { cogsSection } from '../../web/bike/cogs-section.ts';
import { madeUpFleet } from '../browser/made-up/made-up-bikes.ts';
import { stubPage } from './stub-page.ts';

stubPage();

it('says of a worn bike that its skips are not in the chart of shifts, and where they are', () => {
  const { detail } = madeUpFleet()[0];
  const said = (state: object): string => {
    const bike = { ...detail, state: { ...detail.state, sinceAdjustment: false, ...state } };
    return cogsSection({ bike, picks: new Map() } as never)?.textContent ?? '';
  };
  const words = 'Wear shows by skips, not by shifts: each skip stands on its ride';
  expect(said({ topCause: 'worn-drivetrain', skips: 18 })).toContain(words);
  expect(said({ topCause: 'hanger-bent', skips: 18 })).not.toContain(words);
});
