import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import { gpx, type TrackPoint, tcx } from './track-encoder.ts';

interface Point {
  readonly ms: number;
  readonly speed: number;
  readonly cadence: number | null;
  readonly power: number | null;
}

const points = fc
  .array(
    fc.record({
      stepMs: fc.integer({ min: 1, max: 20_000 }),
      speed: fc.integer({ min: 1, max: 40_000 }),
      cadence: fc.option(fc.integer({ min: 0, max: 230 }), { nil: null }),
      power: fc.option(fc.integer({ min: 0, max: 3000 }), { nil: null }),
    }),
    { minLength: 1, maxLength: 40 },
  )
  .map((list) => {
    let ms = Date.UTC(2026, 5, 1, 8);
    return list.map(({ stepMs, ...values }, i): Point => {
      if (i > 0) ms += stepMs;
      return { ...values, ms };
    });
  });

const tag = (name: string, value: number | null): string => (value === null ? '' : `<${name}>${value}</${name}>`);

const writers: Record<string, (list: readonly Point[], prefix: string) => string> = {
  tcx: (list, prefix) =>
    tcx(
      list.map(({ ms, speed, cadence, power }): TrackPoint => {
        const extension = `<${prefix}TPX>${tag(`${prefix}Speed`, speed / 1000)}${tag(`${prefix}Watts`, power)}</${prefix}TPX>`;
        return {
          time: new Date(ms).toISOString(),
          inside: `${tag('Cadence', cadence)}<Extensions>${extension}</Extensions>`,
        };
      }),
    ),
  gpx: (list, prefix) =>
    gpx(
      list.map(({ ms, speed, cadence, power }): TrackPoint => {
        const extension = tag(`${prefix}cad`, cadence) + tag(`${prefix}speed`, speed / 1000);
        return {
          time: new Date(ms).toISOString(),
          inside: `<extensions>${tag('power', power)}<${prefix}TrackPointExtension>${extension}</${prefix}TrackPointExtension></extensions>`,
        };
      }),
    ),
};

test.each(Object.entries(writers))('%s: what is written is read', (format, write) => {
  fc.assert(
    fc.property(points, fc.constantFrom('', 'ns3:', 'gpxtpx:'), (list, prefix) => {
      const log = readRideLog('track', new TextEncoder().encode(write(list, prefix)));
      const orNaN = (value: number | null): number => value ?? NaN;
      expect(log.format).toBe(format);
      expect(log.warnings).toEqual([]);
      expect(log.startMs).toBe(list[0].ms);
      expect([...log.timeS]).toEqual(list.map(({ ms }) => (ms - list[0].ms) / 1000));
      expect([...log.speedMps]).toEqual(list.map(({ speed }) => speed / 1000));
      expect([...log.cadenceRpm]).toEqual(list.map(({ cadence }) => orNaN(cadence)));
      expect([...log.powerW]).toEqual(list.map(({ power }) => orNaN(power)));
      expect(log.gearRecords.timeS.length).toBe(0);
    }),
    { numRuns: 150, seed: 20_260_604 },
  );
});
