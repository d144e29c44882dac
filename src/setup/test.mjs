// `npm test`: makes the project ready, then runs every test; further arguments go to vitest.
import { allParts } from './build-parts.mjs';
import { findOrInstallChromium } from './chromium.mjs';
import { makeReady } from './make-ready.mjs';
import { run } from './run.mjs';

makeReady(allParts());
const chromium = findOrInstallChromium();
if (!chromium)
  process.stderr.write(
    'cogwright: no Chromium was found, so the browser tests are skipped. Install Debian\'s package "chromium" or set CHROME_PATH.\n',
  );
process.exitCode = run(
  process.execPath,
  ['node_modules/vitest/vitest.mjs', 'run', '--config', 'tests/vitest.config.ts', ...process.argv.slice(2)],
  { env: chromium ? { ...process.env, CHROME_PATH: chromium } : process.env, stdout: 'inherit' },
);
