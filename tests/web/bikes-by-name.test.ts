import { parseHTML } from 'linkedom';
import { expect, it, vi } from 'vitest';
import { makeBikeChoice } from '../../web/add-rides/bike-choice.ts';
import { bikesByName } from '../../web/words/bikes-by-name.ts';

const { document, Node } = parseHTML('<!doctype html><html><body></body></html>');
vi.stubGlobal('document', document);
vi.stubGlobal('Node', Node);

const bikes = ['Hut 10', 'Hut 2', 'Alp 1'].map((name) => ({
  id: name,
  bike: { name, chainrings: [32], cassette: [10, 12], actuation: 'cable' },
})) as never[];

it('bikes to be picked from stand in order of name, as people count', () => {
  expect(bikesByName(bikes).map(({ bike }: { bike: { name: string } }) => bike.name)).toEqual([
    'Alp 1',
    'Hut 2',
    'Hut 10',
  ]);
  const { element } = makeBikeChoice(bikes, 'Hut 10', () => {});
  expect([...element.querySelectorAll('option')].map((option) => option.getAttribute('value'))).toEqual([
    '',
    'Alp 1',
    'Hut 2',
    'Hut 10',
  ]);
  expect(element.querySelector('option[selected]')?.getAttribute('value')).toBe('Hut 10');
});
