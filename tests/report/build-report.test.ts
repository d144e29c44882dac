import { describe, expect, it } from 'vitest';
import { gearRuns } from '../../src/report/gear-runs.ts';
import { reportSchema } from '../../src/report/report-schema.ts';
import { rideReport } from '../../src/report/ride-report.ts';
import { sampleAnalyses, sampleBike, sampleDiagnosis, sampleReport } from './sample-report.ts';

describe('buildReport', () => {
  const report = sampleReport();

  it('fits the schema of the contract after a round through JSON, and loses nothing in it', () => {
    const round = JSON.parse(JSON.stringify(report));
    expect(reportSchema.parse(round)).toEqual(round);
    expect(round).toEqual(report);
  });

  it('lists the rides by start', () => {
    expect(report.rides.map((ride) => ride.start)).toEqual(['2026-04-10T07:00:00.000Z', '2026-04-14T06:30:00.000Z']);
  });

  it('keeps the sum of the causes', () => {
    const sum = report.diagnosis.causes.reduce((total, cause) => total + cause.probability, 0);
    expect(Math.abs(sum - 1)).toBeLessThan(1e-9);
    expect(report.diagnosis.causes).toHaveLength(sampleDiagnosis.causes.length);
  });

  it('names cogs by teeth in tallies and comparisons', () => {
    expect(new Set(report.cogs.map((cog) => cog.teeth))).toEqual(new Set(sampleBike.cassette));
    for (const row of report.adjustments[0].cogs) expect(sampleBike.cassette).toContain(row.teeth);
  });
});

describe('rideReport', () => {
  const ride = rideReport(sampleAnalyses[1], sampleBike);

  it('counts every shift once', () => {
    const { shifts, clean, late, missed, overshot, unjudged } = ride.counts;
    expect(shifts).toBe(80);
    expect(clean + late + missed + overshot + unjudged).toBe(shifts);
    expect(ride.counts).toMatchObject({ ghostShifts: 1, chainDrops: 1, skips: 1 });
  });

  it('gives teeth for cog indices and ISO times for seconds', () => {
    expect(ride.shifts[0]).toMatchObject({ at: '2026-04-10T07:00:05.000Z', fromTeeth: 11, toTeeth: 13 });
    expect(ride.ghostShifts[0]).toEqual({
      at: '2026-04-10T07:01:40.250Z',
      fromTeeth: 21,
      toTeeth: 18,
      heldS: 6,
      towardsCommand: false,
      confidence: 0.812,
    });
    expect(ride.chainDrops[0]).toMatchObject({ side: 'past-largest', afterShiftTo: 37 });
    expect(ride.chainDrops[0].signs?.[1]).toEqual({ sign: 'legs-faster', value: 40, unit: '%', logOdds: 4 });
    expect(ride.skips[0]).toMatchObject({ teeth: 24, leapPercent: 18 });
  });

  it('rounds sizes and gives null for what is not known', () => {
    expect(ride.rolloutMm).toBe(2287.5);
    expect(ride.sensorLagS).toBe(1.23);
    expect(ride.shifts.find((shift) => shift.outcome === 'clean')?.crankRevs).toBe(0.84);
    expect(ride.shifts[0].torqueNm).toBeNull();
    expect(ride.measured.cassette.at(-1)).toBeNull();
    const known = sampleAnalyses[1];
    const trace = { ...known.trace, rolloutMm: NaN };
    const blind = rideReport({ ...known, trace, sensorLagS: NaN }, sampleBike);
    expect([blind.rolloutMm, blind.sensorLagS]).toEqual([null, null]);
  });

  it('says once that the speed of a virtual ride was not ridden', () => {
    const analysis = sampleAnalyses[1];
    const note = (code: string) => ({ code, message: `Its speed was computed (${code}).` });
    const noted = (...ofLog: string[]): string[] =>
      rideReport(
        {
          ...analysis,
          log: { ...analysis.log, warnings: ofLog.map(note) },
          trace: { ...analysis.trace, warnings: [note('no-gear-bands')] },
        },
        sampleBike,
      ).warnings.map(({ code }) => code);
    expect(noted('virtual-speed')).toEqual(['virtual-speed']);
    expect(noted()).toEqual(['no-gear-bands']);
  });

  it('measures time over the whole ride but pedalling without its pause', () => {
    expect(ride.durationS).toBe(719);
    expect(ride.pedallingS).toBe(598);
  });

  it('takes an empty ride', () => {
    const { log, trace, events, sensorLagS } = sampleAnalyses[0];
    const none = new Float64Array();
    const samples = { cadenceRpm: none, dtS: none, pedalling: new Uint8Array() };
    const empty = rideReport(
      {
        log: { ...log, timeS: none, cadenceRpm: none },
        trace: { ...trace, cog: new Int8Array(), samples },
        events: { ...events, shifts: [], ghostShifts: [], chainDrops: [], skips: [] },
        sensorLagS,
        lostDrive: [],
      },
      sampleBike,
    );
    expect(empty).toMatchObject({ durationS: 0, pedallingS: 0, gears: [] });
  });
});

describe('gearRuns', () => {
  it('gives one entry where the cog changes, null where it is not known', () => {
    const runs = gearRuns(0, Float64Array.of(0, 1, 2.5, 3, 4), Int8Array.of(-1, 0, 0, 2, -1), [11, 13, 15]);
    expect(runs).toEqual([
      { at: '1970-01-01T00:00:00.000Z', teeth: null },
      { at: '1970-01-01T00:00:01.000Z', teeth: 11 },
      { at: '1970-01-01T00:00:03.000Z', teeth: 15 },
      { at: '1970-01-01T00:00:04.000Z', teeth: null },
    ]);
  });

  it('can be unrolled to the column it came from', () => {
    const { log, trace } = sampleAnalyses[0];
    const runs = gearRuns(0, log.timeS, trace.cog, sampleBike.cassette);
    const unrolled = Array.from(
      log.timeS,
      (timeS) => runs.findLast((run) => Date.parse(run.at) <= timeS * 1000)?.teeth,
    );
    expect(unrolled).toEqual(Array.from(trace.cog, (cog) => sampleBike.cassette[cog] ?? null));
  });
});
