import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';

const names = ['chromium', 'chromium-browser'];

/** Path of a Chromium for browser tests: CHROME_PATH, else Debian's, else one on the PATH; null where there is none. */
function findChromium() {
  const named = process.env.CHROME_PATH;
  if (named && existsSync(named)) return named;
  const folders = ['/usr/bin', ...(process.env.PATH ?? '').split(delimiter)];
  return folders.flatMap((folder) => names.map((name) => join(folder, name))).find((path) => existsSync(path)) ?? null;
}

/** The same, installing Debian's package where that is possible (as root, with apt-get). Never fails: null then. */
export function findOrInstallChromium() {
  const found = findChromium();
  if (found) return found;
  if (process.getuid?.() !== 0 || !existsSync('/usr/bin/apt-get')) return null;
  process.stderr.write("cogwright: installing Debian's chromium for the browser tests ...\n");
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const options = { env, stdio: ['ignore', process.stderr, process.stderr], timeout: 600_000 };
  spawnSync('apt-get', ['update', '-q'], options);
  spawnSync('apt-get', ['install', '-y', '-q', '--no-install-recommends', 'chromium'], options);
  return findChromium();
}
