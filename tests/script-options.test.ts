import { spawnSync } from 'node:child_process';
import { expect, it } from 'vitest';

const run = (script: string, ...args: string[]) =>
  spawnSync(process.execPath, ['--import', 'tsx', `${import.meta.dirname}/${script}`, ...args], { encoding: 'utf8' });

it.each([
  ['bench/run.ts', /npm run bench \[-- NAME...\].*\nNames, or parts of them: .*read-ride-log/],
  ['ride-log/fuzz-run.ts', /npm run fuzz -- --minutes/],
])('%s tells how it is used where it is asked, and where it is asked for what it has not', (script, usage) => {
  expect(run(script, '--help')).toMatchObject({ status: 0, stdout: expect.stringMatching(usage), stderr: '' });
  const wrong = run(script, '--nonsense');
  expect(wrong).toMatchObject({ status: 2, stdout: '' });
  expect(wrong.stderr).toMatch(/--nonsense/);
  expect(wrong.stderr).toMatch(usage);
});
