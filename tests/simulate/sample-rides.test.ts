import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { sampleRideFiles } from '../../src/simulate/sample-rides.ts';

const folder = fileURLToPath(new URL('../../sample-rides/', import.meta.url));

describe('sample rides', () => {
  const files = sampleRideFiles();

  it('stand in sample-rides byte for byte as the simulator makes them', () => {
    for (const { path, bytes } of files) {
      expect(existsSync(folder + path), path).toBe(true);
      expect(Buffer.compare(readFileSync(folder + path), Buffer.from(bytes)), path).toBe(0);
    }
  });

  it('are three bikes with two or three rides each, every file under 250 kB', () => {
    const rides = files.filter(({ path }) => path.endsWith('.fit'));
    const bikes = new Set(rides.map(({ path }) => path.split('/')[0]));
    expect(bikes.size).toBe(3);
    for (const bike of bikes) {
      const count = rides.filter(({ path }) => path.startsWith(`${bike}/`)).length;
      expect([2, 3]).toContain(count);
    }
    for (const { path, bytes } of files) expect(bytes.length, path).toBeLessThan(250_000);
  });
});
