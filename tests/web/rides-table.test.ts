import { expect, it } from 'vitest';
import { ridesSection } from '../../web/bike/rides-section.ts';
import { madeUpFleet } from '../browser/made-up/made-up-bikes.ts';
import { stubPage } from './stub-page.ts';

stubPage();

it('the rides of a bike stand with their skips, and with a dash where records lie too far apart for any', () => {
  const { detail: bike, rides } = madeUpFleet()[0];
  const [first, second, third] = rides.map(({ detail }) => detail);
  Object.assign(first.counts!, { skips: 1234 });
  for (const { counts } of [second, third]) Object.assign(counts!, { skips: 0 });
  Object.assign(second, { warnings: [{ code: 'sparse-records', message: 'far apart' }] });
  const shown = [first, second, third];
  const page = { bike, rides: shown, allRides: shown.length, refresh: async () => {} };
  const section = ridesSection(page as never);
  const heads = [...section.querySelectorAll('thead th')].map((head) => head.textContent);
  const at = heads.indexOf('Skips');
  expect(at).toBeGreaterThan(0);
  const rows = [...section.querySelectorAll('tbody tr')];
  expect(rows.map((row) => row.children[at].textContent)).toEqual(['1,234', '–', '0']);
  expect(rows.map((row) => row.querySelector('.only-narrow')!.textContent!.includes('1,234 skips'))).toEqual([
    true,
    false,
    false,
  ]);
});

it('a ride stands with the share of its judged shifts that went wrong, so that rides of any length compare', () => {
  const { detail: bike, rides } = madeUpFleet()[0];
  const [first, second] = rides.map(({ detail }) => detail);
  Object.assign(first.counts!, { shifts: 52, unjudged: 2, late: 6, missed: 3, overshot: 1 });
  Object.assign(second.counts!, { shifts: 52, unjudged: 2, late: 0, missed: 0, overshot: 0 });
  const page = { bike, rides: [first, second], allRides: 2, refresh: async () => {} };
  const rows = [...ridesSection(page as never).querySelectorAll('tbody tr')];
  const said = (text: string | null) => text?.replace(/\s/g, ' ');
  expect(rows.map((row) => said(row.children[3].textContent))).toEqual(['10 (20 %)', '0']);
  expect(said(rows[0].querySelector('.only-narrow')!.textContent)).toMatch(/^52 shifts, 10 in trouble \(20 %\)/);
});
