import { describe, expect, it } from 'vitest';
import { drawSkipsBeforeAfter, drawSkipsByCog } from '../../../src/report/charts/skips-by-cog-chart.ts';
import { skipped } from '../made-skips.ts';
import { drawChart, marks, rowsOf } from './draw-chart.ts';

const size = { widthPx: 860, heightPx: 320 };

describe('skips by cog', () => {
  const cogs = [skipped(15, 9, 2), skipped(18, 0, 3), skipped(21, 1, 0.05), skipped(24, 0, 0)];
  const svg = drawChart((selection) => drawSkipsByCog(selection, cogs, size));

  it('has a point with its reading for each cog that was pedalled on, faint for hardly any', () => {
    const points = marks(svg).filter((mark) => mark.querySelector('.point'));
    expect(points.map((mark) => mark.getAttribute('class'))).toEqual([
      'mark event skip',
      'mark none',
      'mark event skip few',
    ]);
    expect(points.map((mark) => mark.querySelector('title')?.textContent)).toEqual([
      'On 15 teeth: 9 skips in 2 h 00 min of pedalling, 4.5 an hour (2.1 to 8.5)',
      'On 18 teeth: no skip in 3 h 00 min of pedalling, 0.0 an hour (0.0 to 1.2)',
      'On 21 teeth: 1 skip in 3 min of pedalling, too little for a rate',
    ]);
    const shapes = points.map((mark) => mark.querySelector('.point')?.getAttribute('d'));
    expect(shapes[0]).toBe(shapes[2]);
    expect(shapes[0]).not.toBe(shapes[1]);
  });

  it('tells the rate of a cog hardly pedalled on where many skips were seen', () => {
    const svg = drawChart((selection) => drawSkipsByCog(selection, [skipped(17, 3, 0.1), skipped(36, 1, 0.005)], size));
    expect(marks(svg).map((mark) => [mark.getAttribute('class'), mark.querySelector('title')?.textContent])).toEqual([
      ['mark event skip', 'On 17 teeth: 3 skips in 6 min of pedalling, 30 an hour (6.2 to 88)'],
      ['mark event skip few', 'On 36 teeth: 1 skip in under 1 min of pedalling, too little for a rate'],
    ]);
  });

  it('has the skips of each cog and the hours pedalled on it under the axis', () => {
    expect(rowsOf(svg, 'skip')).toEqual(['9 1']);
    const hours = [...svg.querySelectorAll('.counts:not(.event) .count')].map((count) => count.textContent);
    expect(hours).toEqual(['2.0', '3.0', '0.1', '0.0']);
  });
});

it('draws skips before and after a new chain beside one another, those before dashed', () => {
  const skips = { before: [skipped(15, 9, 2), skipped(18, 1, 3)], after: [skipped(15, 2, 1), skipped(18, 0, 0.05)] };
  const svg = drawChart((selection) => drawSkipsBeforeAfter(selection, skips, size));
  const drawn = marks(svg);
  expect(drawn.map((mark) => mark.getAttribute('class'))).toEqual([
    'mark event skip before',
    'mark event skip before',
    'mark event skip',
    'mark none few',
  ]);
  expect(drawn.map((mark) => mark.querySelector('title')?.textContent)).toEqual([
    'Before, on 15 teeth: 9 skips in 2 h 00 min of pedalling, 4.5 an hour (2.1 to 8.5)',
    'Before, on 18 teeth: 1 skip in 3 h 00 min of pedalling, 0.3 an hour (0.0 to 1.9)',
    'After, on 15 teeth: 2 skips in 1 h 00 min of pedalling, 2.0 an hour (0.2 to 7.2)',
    'After, on 18 teeth: no skip in 3 min of pedalling, too little for a rate',
  ]);
  const place = (mark: Element) => Number(/translate\(([-\d.]+)/.exec(mark.getAttribute('transform') ?? '')?.[1]);
  const [was15, was18, is15, is18] = drawn.map(place);
  expect(was15 < is15 && is15 < was18 && was18 < is18).toBe(true);
  expect(rowsOf(svg, 'skip')).toEqual(['9 1', '2']);
  expect(svg.querySelector('.legend')?.textContent).toContain('left, dashed: before');
});
