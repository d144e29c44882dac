import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const read = (file: string) => JSON.parse(readFileSync(`${root}/${file}`, 'utf8'));
const { fitsVersion } = await import(`${root}/src/setup/node-version.mjs`);
const { packages } = read('package-lock.json');
const wanted: string = read('package.json').engines.node;

describe('the versions of Node that are asked for', () => {
  it.each([
    ['18.20.4', false],
    ['20.11.1', false],
    ['20.18.9', false],
    ['20.19.0', true],
    ['20.20.2', true],
    ['21.7.3', false],
    ['22.11.0', false],
    ['22.12.0', true],
    ['23.11.0', false],
    ['24.0.0', true],
    ['24.0.0-nightly20250401', true],
    ['100.1.0', true],
  ])('%s does: %s', (version, does) => {
    expect(fitsVersion(version, wanted)).toBe(does);
  });

  it('are the same in the lock file', () => {
    expect(packages[''].engines.node).toBe(wanted);
  });

  /** Those that ask for the most. */
  it.each(['vite', 'rolldown', 'vitest', 'css-select'])('are no more than %s runs on', (library) => {
    const asked: string = packages[`node_modules/${library}`].engines.node;
    const edges = ['20.0.0', '20.19.0', '21.0.0', '22.0.0', '22.12.0', '23.0.0', '24.0.0', '26.0.0'];
    const unfit = edges.filter((version) => fitsVersion(version, wanted) && !fitsVersion(version, asked));
    expect(unfit).toEqual([]);
  });
});
