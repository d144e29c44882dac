import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { expect, it } from 'vitest';

const start = (...args: string[]) =>
  spawnSync(process.execPath, [join(import.meta.dirname, '../../src/setup/start.mjs'), ...args], { encoding: 'utf8' });

it('npm start prints its help and ends', () => {
  const { status, stdout, stderr } = start('--help');
  expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  expect(stdout).toMatch(/--port NUMBER[\s\S]*--data FOLDER[\s\S]*--verbose/);
});

it.each([
  [['--nonsense'], /^cogwright: Unknown option '--nonsense'/],
  [['--port', 'x'], /^cogwright: --port x: must be a whole number from 0 to 65535\./],
])('npm start %j ends with what is allowed, and no trace', (args, words) => {
  const { status, stdout, stderr } = start(...args);
  expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
  expect(stderr).toMatch(words);
  expect(stderr).toContain('--port NUMBER');
  expect(stderr).not.toMatch(/\n\s+at /);
});
