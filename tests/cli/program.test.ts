import { spawn } from 'node:child_process';
import { closeSync, existsSync, openSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { faultCauses } from '../../src/simulate/setting/fault-causes.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const program = ['--import', 'tsx', `${root}tests/cli/cogwright-main.ts`];

describe('the program on its own', () => {
  it('prints help and ends with 0', async () => {
    const child = spawn(process.execPath, [...program, '--help'], { cwd: root });
    let stdout = '';
    child.stdout.on('data', (chunk) => {
      stdout += chunk;
    });
    expect(await new Promise((resolve) => child.on('close', resolve))).toBe(0);
    expect(stdout).toContain('Usage: cogwright');
  });

  it('names in its help the faults that it can simulate', async () => {
    const child = spawn(process.execPath, [...program, 'simulate', '--help'], { cwd: root });
    let stdout = '';
    child.stdout.on('data', (chunk) => {
      stdout += chunk;
    });
    await new Promise((resolve) => child.on('close', resolve));
    for (const fault of faultCauses) expect(stdout).toContain(fault);
  });

  it('ends quietly when the reader of its output goes away', async () => {
    const child = spawn(process.execPath, [...program, 'analyse', '--help'], { cwd: root });
    child.stdout.destroy();
    let stderr = '';
    child.stderr.on('data', (chunk) => {
      stderr += chunk;
    });
    await new Promise((resolve) => child.on('close', resolve));
    expect(stderr).toBe('');
  });

  it('says that its result could not be written, and ends with 2', async ({ skip }) => {
    if (!existsSync('/dev/full')) skip('no file here is always full');
    const full = openSync('/dev/full', 'w');
    const ride = ['sample-rides/chough/ride-1.fit', '--bike', 'sample-rides/chough/bike.json'];
    const child = spawn(process.execPath, [...program, 'analyse', ...ride], {
      cwd: root,
      stdio: ['ignore', full, 'pipe'],
    });
    closeSync(full);
    let stderr = '';
    child.stderr?.on('data', (chunk) => {
      stderr += chunk;
    });
    expect(await new Promise((resolve) => child.on('close', resolve))).toBe(2);
    expect(stderr).toBe(
      'cogwright: standard output: could not be written: the disk is full. Free some space, or name a place on another disk.\n',
    );
  });
});
