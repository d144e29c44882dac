import { parseHTML } from 'linkedom';
import { afterAll, beforeAll, expect, it, vi } from 'vitest';
import { companionList } from '../../web/add-rides/companion-list.ts';

beforeAll(() => {
  const { document, Node } = parseHTML('<!doctype html><html><body></body></html>');
  vi.stubGlobal('document', document);
  vi.stubGlobal('Node', Node);
});
afterAll(() => vi.unstubAllGlobals());

it('says of a broken bike file, as of broken adjustments, that it is left out', () => {
  const fault = 'cassette is missing: must be a list in square brackets.';
  const broken = { path: 'bike.json', bike: null, fault };
  const list = companionList({ bikes: [broken], adjustments: [] } as never, null, []);
  expect(list?.textContent).toContain(`${fault} It is left out until it is put right.`);
});
