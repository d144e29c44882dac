import { parseHTML } from 'linkedom';
import { expect, it, vi } from 'vitest';
import { ridesSection } from '../../web/bike/rides-section.ts';
import { madeUpFleet } from '../browser/made-up/made-up-bikes.ts';

const { document, Node, HTMLElement } = parseHTML('<!doctype html><html><body></body></html>');
vi.stubGlobal('document', document);
vi.stubGlobal('Node', Node);
vi.stubGlobal('HTMLElement', HTMLElement);
vi.stubGlobal(
  'ResizeObserver',
  class {
    observe(): void {}
  },
);

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
