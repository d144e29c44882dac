import { mkdtempSync, rmSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findRides } from '../../src/cli/find-rides.ts';
import { unreadable } from '../../src/cli/read-error.ts';
import { readRides } from '../../src/cli/read-rides.ts';
import { unwritable } from '../../src/cli/write-error.ts';
import { simulationFiles } from '../../src/simulate/simulation-files.ts';
import { runCogwright } from './run-cogwright.ts';

const folder = mkdtempSync(join(tmpdir(), 'cogwright-errors-'));
const at = (...path: string[]): string => join(folder, ...path);
const quiet = { tell: () => undefined, end: () => undefined };
const failing = (code: string): Error => Object.assign(new Error(`${code}: syscall`), { code });

beforeAll(() => {
  for (const { path, bytes } of simulationFiles({ cause: 'no-fault', seed: 5, rides: 1, durationS: 300 }))
    if (path.endsWith('.fit')) writeFileSync(at('ride.fit'), bytes);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('a file that was given in the place of another', () => {
  const bike = JSON.stringify({ name: 'Hut bike', chainrings: [32], cassette: [11, 13, 15, 18, 21] });

  it.each([
    ['bike', 'is a ride, not a bike file. Give it among the rides, and a bike file after --bike.'],
    ['adjustments', 'is a ride, not a file of adjustments. Give it among the rides, and a file of adjustments after'],
  ])('is called a ride where it was given as --%s', async (option, words) => {
    writeFileSync(at('ride.csv'), 'time_s,speed_mps\n0,3\n1,3\n');
    for (const ride of ['ride.fit', 'ride.csv']) {
      const { code, stderr } = await runCogwright('analyse', at('ride.fit'), `--${option}`, at(ride));
      expect(code).toBe(2);
      expect(stderr).toContain(`${at(ride)}: ${words}`);
    }
    rmSync(at('ride.csv'));
  });

  it.each(['bike', 'adjustments'])('is called a folder where one was given as --%s', async (option) => {
    const { code, stdout, stderr } = await runCogwright('analyse', at('ride.fit'), `--${option}`, folder, '--json');
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toContain(`${folder}: is a folder, not a file`);
  });

  it('is named where bike and adjustments changed places', async () => {
    writeFileSync(at('log.csv'), 'at,parameter\n2026-04-12T18:30:00Z,chain\n');
    writeFileSync(at('hut.json'), bike);
    const analyse = (...args: string[]) => runCogwright('analyse', at('ride.fit'), ...args);
    expect(await analyse('--bike', at('log.csv'))).toMatchObject({
      code: 2,
      stderr: expect.stringContaining(
        'looks like a file of adjustments, not like a bike file. Give it with --adjustments.',
      ),
    });
    expect(await analyse('--adjustments', at('hut.json'))).toMatchObject({
      code: 2,
      stderr: expect.stringContaining('looks like a bike file, not like a file of adjustments. Give it with --bike.'),
    });
    rmSync(at('log.csv'));
    rmSync(at('hut.json'));
  });

  it('is told to be filled where it is empty', async () => {
    writeFileSync(at('hollow.json'), ' \n');
    const { code, stderr } = await runCogwright('analyse', at('ride.fit'), '--bike', at('hollow.json'));
    expect(code).toBe(2);
    expect(stderr).toMatch(/hollow\.json: is empty\. Write in it what belongs there, or give another file\.\n$/);
    rmSync(at('hollow.json'));
  });

  it.each([
    ['bike.json', bike, 'a bike file', '--bike'],
    ['log.csv', 'at,parameter,amount,unit,note\n', 'a file of adjustments', '--adjustments'],
  ])('is told by what it is where %s was given as a ride', (name, text, kind, option) => {
    writeFileSync(at(name), text);
    const { logs, failed } = readRides([at(name)], quiet);
    expect(logs).toEqual([]);
    const message = `${at(name)}: looks like ${kind}, not like a ride. Give it with ${option} ${at(name)}.`;
    expect(failed).toEqual([{ file: at(name), code: 'not-a-ride', message }]);
    rmSync(at(name));
  });
});

describe('a file that cannot be read', () => {
  it.each([
    ['EACCES', 'ride.fit: may not be read by you. Check its name and who may read it.'],
    ['ENOTDIR', 'ride.fit: a part of its path is a file, not a folder. Check its name and who may read it.'],
    ['EXDEV', 'ride.fit: cannot be read (EXDEV). Check its name and who may read it.'],
  ])('%s is said in words', (code, message) => {
    expect(unreadable('ride.fit', failing(code))).toMatchObject({ code: 'unreadable', message });
  });

  it('is told of, a link that leads round in a circle among others, and the rest is read', () => {
    symlinkSync(at('circle'), at('circle'));
    const { files, failed } = findRides([at('circle'), at('ride.fit')]);
    expect(files).toEqual([at('ride.fit')]);
    expect(failed).toMatchObject([{ file: at('circle'), code: 'unreadable' }]);
    expect(failed[0].message).toContain('is a link that leads back to itself. Check its name');
    expect(findRides([folder]).failed).toEqual([]);
  });

  it('says how large it is, what is allowed and what to do where it is too large', () => {
    writeFileSync(at('huge.fit'), '');
    truncateSync(at('huge.fit'), 256_000_001);
    const { logs, failed } = readRides([at('huge.fit')], quiet);
    expect(logs).toEqual([]);
    expect(failed).toMatchObject([{ file: at('huge.fit'), code: 'too-large' }]);
    expect(failed[0].message).toMatch(
      /huge\.fit: is 257 MB, more than the 256 MB that are read\. A ride of a whole day is under 10 MB: give the ride logs themselves/,
    );
    rmSync(at('huge.fit'));
  });
});

describe('a file that cannot be written', () => {
  it.each([
    ['EACCES', 'you may not write there. Name a place of your own.'],
    ['EROFS', 'that disk can only be read. Name a place on another disk.'],
    ['EXDEV', 'the system refused it (EXDEV). Name another place.'],
  ])('%s is said in words', (code, words) => {
    expect(unwritable('--html page.html', null, failing(code)).message).toBe(
      `--html page.html: could not be written: ${words}`,
    );
  });

  it('ends analyse with 2, which file, why, and what to do', async () => {
    const { code, stderr } = await runCogwright('analyse', at('ride.fit'), '--html', '/dev/full');
    expect(code).toBe(2);
    expect(stderr).toContain('--html /dev/full: could not be written: the disk is full. Free some space');
  });

  it('ends simulate with 2, which file, why, and what to do', async () => {
    const out = at('ride.fit', 'inside');
    const args = ['--fault', 'no-fault', '--seed', '1', '--rides', '1', '--minutes', '5'];
    const { code, stderr } = await runCogwright('simulate', ...args, '--out', out);
    expect(code).toBe(2);
    expect(stderr).toContain(`--out ${out}: ${join(out, '')}`);
    expect(stderr).toContain('could not be written: a part of its path is a file, not a folder. Name another place.');
  });
});
