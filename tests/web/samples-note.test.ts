import { expect, it } from 'vitest';
import { removalWords, samplesSection } from '../../web/bikes/samples-note.ts';
import { samplesApart } from '../../web/words/samples-apart.ts';
import { stubPage } from './stub-page.ts';

stubPage();

const bike = (name: string, sample: boolean, rides = 2) => ({ id: name, bike: { name }, sample, rides }) as never;

it('keeps the samples apart, named and counted, and says nothing where there are none', () => {
  const { own, samples } = samplesApart([bike('A', true), bike('Own', false), bike('B', true)]);
  expect(own).toEqual([bike('Own', false)]);
  const rows = document.createElement('ul');
  const section = samplesSection(samples, rows, async () => {});
  expect(section?.querySelector('h2')?.textContent).toBe('2 sample bikes');
  expect(section?.querySelector('button')?.textContent).toContain('Remove the samples');
  expect(section?.contains(rows)).toBe(true);
  expect(samplesSection([], rows, async () => {})).toBeNull();
});

it('names what goes before it is taken away', () => {
  expect(removalWords([bike('A', true), bike('B', true, 3)])).toMatch(
    /^A; B\. With them go 5 rides, those that you added/,
  );
});
