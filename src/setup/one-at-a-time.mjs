import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { root } from './project.mjs';

const lockFolder = `${root}dist/.making-ready`;
const ownerFile = `${lockFolder}/pid`;

/**
 * Does `work` while no other command of this checkout installs or builds: two commands started together on a clean
 * clone must not both install. A lock left behind by a program that was killed is taken over.
 */
export function oneAtATime(work) {
  while (!takeLock()) sleep(200);
  try {
    work();
  } finally {
    rmSync(lockFolder, { recursive: true, force: true });
  }
}

function takeLock() {
  try {
    mkdirSync(`${root}dist`, { recursive: true });
    mkdirSync(lockFolder);
    writeFileSync(ownerFile, String(process.pid));
    process.once('exit', () => rmSync(lockFolder, { recursive: true, force: true }));
    return true;
  } catch (error) {
    if (error.code !== 'EEXIST') throw error;
    if (!ownerLives()) rmSync(lockFolder, { recursive: true, force: true });
    return false;
  }
}

function ownerLives() {
  try {
    process.kill(Number(readFileSync(ownerFile, 'utf8')), 0);
    return true;
  } catch (error) {
    return error.code === 'EPERM' || error.code === 'ENOENT';
  }
}

function sleep(ms) {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, ms);
}
