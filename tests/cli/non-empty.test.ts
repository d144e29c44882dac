import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { defaultDataFolder } from '../../server/data-folder/default-data-folder.ts';
import { runCogwright } from './run-cogwright.ts';

const ride = join(import.meta.dirname, '../../sample-rides/chough/ride-1.fit');
const simulate = ['simulate', '--fault', 'no-fault', '--seed', '1', '--minutes', '1'];

let folder: string;
let before: string;
beforeEach(() => {
  before = process.cwd();
  folder = mkdtempSync(join(tmpdir(), 'cogwright-empty-'));
  process.chdir(folder);
});
afterEach(() => {
  process.chdir(before);
  rmSync(folder, { recursive: true });
});

describe('a place that was left empty, as by an unset variable', () => {
  it.each([
    ['the ride', ['analyse', '']],
    ['one ride of several', ['analyse', ride, '']],
    ['--bike', ['analyse', ride, '--bike', '']],
    ['--adjustments', ['analyse', ride, '--adjustments', '']],
    ['--html', ['analyse', ride, '--html', '']],
    ['--out', [...simulate, '--out', '']],
    ['--out of blanks', [...simulate, '--out', '  ']],
    ['--bike of simulate', [...simulate, '--out', 'rides', '--bike', '']],
    ['--data', ['serve', '--port', '0', '--data', '']],
    ['--listen', ['serve', '--port', '0', '--data', 'data', '--listen', '']],
  ])('%s is wrong usage, and nothing is written', async (_, args) => {
    const { code, stdout, stderr } = await runCogwright(...args);
    expect(code).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toMatch(
      /is invalid( for argument 'ride')?\. It is empty and names nothing: name one, or leave it out\./,
    );
    expect(readdirSync(folder)).toEqual([]);
  });

  it('leaves the data folder where it is without it', () => {
    expect(defaultDataFolder({ LOCALAPPDATA: '' }, 'win32', 'home')).toBe(
      join('home', 'AppData', 'Local', 'cogwright'),
    );
  });
});

it('takes several rides as before', async () => {
  const { code, stderr } = await runCogwright('analyse', 'one.fit', 'two.fit');
  expect(code).toBe(1);
  expect(stderr).toMatch(/one\.fit.*\n.*two\.fit/);
});
