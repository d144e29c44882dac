import {
  closeSync,
  fstatSync,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  rmdirSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { root } from './project.mjs';

const lockFolder = `${root}dist/.making-ready`;
const ownFolder = `${lockFolder}-${process.pid}`;

/** How systems say that a folder cannot be moved onto one that holds something. */
const taken = process.platform === 'win32' ? ['EPERM', 'EACCES', 'EEXIST'] : ['ENOTEMPTY', 'EEXIST'];

let held = false;

/**
 * Does `work` while no other command of this checkout installs or builds: two commands started together on a clean
 * clone must not both install. A lock left behind by a program that was killed is taken over.
 */
export function oneAtATime(work) {
  while (!takeLock()) sleep(200);
  try {
    work();
  } finally {
    release();
  }
}

/** The lock is a folder that is moved into place with its owner in it, so that it never stands without one. */
function takeLock() {
  mkdirSync(ownFolder, { recursive: true });
  writeFileSync(`${ownFolder}/pid`, String(process.pid));
  try {
    renameSync(ownFolder, lockFolder);
  } catch (error) {
    rmSync(ownFolder, { recursive: true, force: true });
    if (!taken.includes(error.code)) throw error;
    buryIfDead();
    return false;
  }
  held = true;
  process.once('exit', release);
  return true;
}

/** Moves the lock away before it is removed: removed bit by bit where it is, it could be another's in the middle. */
function release() {
  if (!held) return;
  held = false;
  renameSync(lockFolder, ownFolder);
  rmSync(ownFolder, { recursive: true, force: true });
}

/**
 * Moves the lock of an owner who was killed into a grave of its own. Of several that wait, each may find the same lock
 * dead; the first fills its grave, and so keeps the others from moving a lock of the living there. For that graves stay.
 */
function buryIfDead() {
  const dead = deadLock();
  if (dead === null) return;
  try {
    renameSync(lockFolder, `${lockFolder}-left-${dead}`);
  } catch (error) {
    if (error.code !== 'ENOENT' && !taken.includes(error.code)) throw error;
  }
}

/** What tells the lock of an owner who is gone from every other lock; null where its owner lives, or it is gone by now. */
function deadLock() {
  let file;
  try {
    file = openSync(`${lockFolder}/pid`);
  } catch {
    removeIfEmpty();
    return null;
  }
  try {
    const { ino, mtimeMs } = fstatSync(file);
    return lives(Number(readFileSync(file, 'utf8'))) ? null : `${ino}-${mtimeMs}`;
  } finally {
    closeSync(file);
  }
}

/** A lock without an owner was left half made. Not every system moves a folder onto an empty one. */
function removeIfEmpty() {
  try {
    rmdirSync(lockFolder);
  } catch {
    // Taken by another meanwhile, or gone: the next try will tell.
  }
}

function lives(pid) {
  if (!(pid > 0)) return false;
  try {
    return process.kill(pid, 0);
  } catch (error) {
    return error.code === 'EPERM';
  }
}

function sleep(ms) {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, ms);
}
