import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const tokens = readFileSync(new URL('../../web/styles/tokens.css', import.meta.url), 'utf8');
const pairs = new Map(
  [...tokens.matchAll(/--([\w-]+): light-dark\((#[0-9a-f]{6}), (#[0-9a-f]{6})\)/g)].map(([, name, light, dark]) => [
    name,
    { light, dark },
  ]),
);

/** Relative luminance, as WCAG 2.2 defines it. */
function luminance(colour: string): number {
  const [red, green, blue] = [1, 3, 5]
    .map((at) => Number.parseInt(colour.slice(at, at + 2), 16) / 255)
    .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function contrast(one: string, other: string): number {
  const [high, low] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return (high + 0.05) / (low + 0.05);
}

/** A colour laid over another. */
const over = (colour: string, ground: string, opacity: number): string =>
  `#${[1, 3, 5]
    .map((at) => [colour, ground].map((one) => Number.parseInt(one.slice(at, at + 2), 16)))
    .map(([top, below]) => Math.round(top * opacity + below * (1 - opacity)))
    .map((part) => part.toString(16).padStart(2, '0'))
    .join('')}`;

const themes = ['light', 'dark'] as const;
const grounds = ['paper', 'panel', 'sunk', 'accent-wash'];
const marks = [
  'line-strong',
  'accent',
  'service',
  'watch',
  'fine',
  'unknown',
  'larger',
  'smaller',
  'trouble',
  'before',
];

describe.each(themes)('marks in %s colours', (theme) => {
  const colour = (name: string): string => pairs.get(name)![theme];

  it.each(marks)('%s stands out from every ground by 3 to 1', (mark) => {
    for (const ground of grounds) expect(contrast(colour(mark), colour(ground)), ground).toBeGreaterThanOrEqual(3);
  });

  it('intervals of the small trend stand out as well', () => {
    const style = readFileSync(new URL('../../web/styles/chart.css', import.meta.url), 'utf8');
    const opacity = Number(/\.spark \.interval \{[^}]*stroke-opacity: ([\d.]+)/.exec(style)?.[1]);
    const drawn = over(colour('larger'), colour('panel'), opacity);
    expect(contrast(drawn, colour('panel'))).toBeGreaterThanOrEqual(3);
  });
});
