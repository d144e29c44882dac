import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { root } from './project.mjs';
import { orStop, run } from './run.mjs';

const lockFile = `${root}package-lock.json`;
const stampFile = `${root}node_modules/.cogwright-installed`;
/** npm's own record of what stands in node_modules; written last, so a broken-off install has none. */
const recordFile = `${root}node_modules/.package-lock.json`;

/** True where node_modules holds what the lock file asks for, for this major version of Node. */
export function isInstalled() {
  if (!existsSync(recordFile)) return false;
  const wanted = stampOfLockFile();
  if (existsSync(stampFile) && readFileSync(stampFile, 'utf8') === wanted) return true;
  if (existsSync(stampFile) && nodeMajorOf(readFileSync(stampFile, 'utf8')) !== nodeMajorOf(wanted)) return false;
  if (!holdsTheLockedVersions()) return false;
  writeFileSync(stampFile, wanted);
  return true;
}

/** Installs with `npm ci` where something is missing or other than the lock file says; else does nothing. */
export function ensureInstalled() {
  if (isInstalled()) return;
  process.stderr.write('cogwright: installing the libraries named in package-lock.json ...\n');
  orStop(
    run('npm', ['ci', '--include=dev', '--no-audit', '--no-fund']),
    'the libraries could not be installed; see the lines above. Is there a network?',
  );
  writeFileSync(stampFile, stampOfLockFile());
}

function stampOfLockFile() {
  return `${createHash('sha256').update(readFileSync(lockFile)).digest('hex')} node ${process.versions.node.split('.')[0]}`;
}

function nodeMajorOf(stamp) {
  return stamp.split(' ').at(-1);
}

function holdsTheLockedVersions() {
  const locked = JSON.parse(readFileSync(lockFile, 'utf8')).packages;
  const present = JSON.parse(readFileSync(recordFile, 'utf8')).packages;
  return Object.entries(locked).every(
    ([place, entry]) => place === '' || entry.optional || present[place]?.version === entry.version,
  );
}
