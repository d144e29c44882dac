import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const script = `
  import { page } from './src/setup/build-parts.mjs';
  import { makeReady } from './src/setup/make-ready.mjs';
  makeReady([page]);
`;

/** Builds the page where it is older than its sources; tests that start together build it once. */
export function buildPage(): void {
  execFileSync(process.execPath, ['--input-type=module', '--eval', script], {
    cwd: fileURLToPath(new URL('../..', import.meta.url)),
    stdio: ['ignore', 'ignore', 'inherit'],
  });
}
