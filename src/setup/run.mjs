import { spawnSync } from 'node:child_process';
import { root } from './project.mjs';

/**
 * Runs a command in the project's folder and waits. What it prints goes to standard error, so that standard output
 * stays free for the program's own result.
 *
 * @returns {number} its exit code; 127 where it could not be started
 */
export function run(command, args, { env = process.env, stdout = process.stderr } = {}) {
  const result = spawnSync(command, args, { cwd: root, env, stdio: ['ignore', stdout, process.stderr] });
  return result.error ? 127 : (result.status ?? 1);
}

/** Ends the program with a message where a step of making ready failed; with 70, since 1 and 2 speak of rides and usage. */
export function orStop(exitCode, message) {
  if (exitCode === 0) return;
  process.stderr.write(`cogwright: ${message}\n`);
  process.exit(70);
}
