import { parseHTML } from 'linkedom';
import { expect, it, vi } from 'vitest';
import { removalWords, samplesNote } from '../../web/bikes/samples-note.ts';

const { document, Node, HTMLElement } = parseHTML('<!doctype html><html><body></body></html>');
vi.stubGlobal('document', document);
vi.stubGlobal('Node', Node);
vi.stubGlobal('HTMLElement', HTMLElement);

const bike = (name: string, sample: boolean, rides = 2) => ({ id: name, bike: { name }, sample, rides }) as never;

it('counts the samples among the bikes, and says nothing where there are none', () => {
  const note = samplesNote([bike('Own', false), bike('A', true), bike('B', true)], async () => {});
  expect(note?.querySelector('p')?.textContent).toMatch(/^2 bikes marked “sample”: invented/);
  expect(note?.querySelector('button')?.textContent).toContain('Remove the samples');
  expect(samplesNote([bike('Own', false)], async () => {})).toBeNull();
});

it('names what goes before it is taken away', () => {
  expect(removalWords([bike('A', true), bike('B', true, 3)])).toMatch(
    /^A; B\. With them go 5 rides, those that you added/,
  );
});
