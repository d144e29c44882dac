// `.ci/run`: everything that must hold before a change is taken in. Ends with the line "N passed, N failed".
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ensureInstalled } from './installed.mjs';
import { ensureNodeVersion } from './node-version.mjs';
import { oneAtATime } from './one-at-a-time.mjs';
import { root } from './project.mjs';
import { run } from './run.mjs';

const failedSteps = [];

ensureNodeVersion();
oneAtATime(ensureInstalled);
step('type check', () => npm('run', '--silent', 'typecheck'));
step('lint', () => npm('run', '--silent', 'lint'));
step('build', () => npm('run', '--silent', 'build'));
step('audit', audit);
const { passed, failed } = runTests();
if (failedSteps.length > 0) process.stdout.write(`failed steps: ${failedSteps.join(', ')}\n`);
process.stdout.write(`${passed} passed, ${failed} failed\n`);
process.exitCode = failedSteps.length > 0 || failed > 0 ? 1 : 0;

function step(name, work) {
  process.stdout.write(`== ${name}\n`);
  if (work() !== 0) failedSteps.push(name);
}

function npm(...args) {
  return run('npm', args, { stdout: 'inherit' });
}

/** Known weaknesses of the libraries that the program ships with. Skipped with a message where the registry does not answer. */
function audit() {
  const result = spawnSync('npm', ['audit', '--omit=dev', '--json'], { cwd: root, encoding: 'utf8', timeout: 120_000 });
  const count = weaknesses(result.stdout);
  if (count === null) {
    process.stdout.write('npm audit: the registry did not answer, skipped\n');
    return 0;
  }
  process.stdout.write(`npm audit: ${count} known weaknesses\n`);
  if (count > 0) npm('audit', '--omit=dev');
  return count;
}

function weaknesses(output) {
  try {
    return JSON.parse(output).metadata.vulnerabilities.total;
  } catch {
    return null;
  }
}

/** Runs `npm test`; a run that breaks off without its summary counts as one failure. */
function runTests() {
  process.stdout.write('== tests\n');
  const folder = mkdtempSync(join(tmpdir(), 'cogwright-ci-'));
  const summary = join(folder, 'vitest.json');
  const code = npm('test', '--', '--reporter=default', '--reporter=json', `--outputFile.json=${summary}`);
  try {
    const { numPassedTests, numFailedTests, success } = JSON.parse(readFileSync(summary, 'utf8'));
    if (code !== 0 || !success) failedSteps.push('tests');
    return { passed: numPassedTests, failed: success ? 0 : Math.max(1, numFailedTests) };
  } catch {
    failedSteps.push('tests');
    return { passed: 0, failed: 1 };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
