import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';

const elsewhere = mkdtempSync(join(tmpdir(), 'cogwright-start-'));
afterAll(() => rmSync(elsewhere, { recursive: true, force: true }));

/** Were the options taken after all, the server would stand on a folder of the test's own. */
const start = (...args: string[]) =>
  spawnSync(process.execPath, [join(import.meta.dirname, '../../src/setup/start.mjs'), ...args], {
    encoding: 'utf8',
    env: { ...process.env, XDG_DATA_HOME: elsewhere },
    timeout: 60_000,
  });

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
