import { describe, expect, it } from 'vitest';
import type { RideTrace } from '../../src/gear-trace/gear-trace.ts';
import { skipDips } from '../../src/shifts/skips/skip-dips.ts';
import { madeLog } from '../gear-trace/made-ride.ts';

const SECONDS = 40;
const DIP_S = 20;
const COG = 1;
/** Log developments of three cogs, the smallest first. */
const LEVELS = [1.6, 1.4, 1.2];

interface Dipping {
  /** How far the legs run ahead of cog 1, log share, by how many seconds after the dip began; 0 elsewhere unless `before`. */
  readonly dip: readonly number[];
  readonly before?: number;
  readonly deviation?: number;
  /** When this cog was asked for, s. */
  readonly askedS?: number;
}

/** The dips found in settled pedalling on one cog at one speed: only the cadence changes. */
function found({ dip, before = 0, deviation = 0.01, askedS = 0 }: Dipping) {
  const seconds = Array.from({ length: SECONDS }, (_, second) => second);
  const ahead = seconds.map((second) => dip[second - DIP_S] ?? before);
  const log = madeLog({ speedMps: seconds.map(() => 6), cadenceRpm: ahead.map((share) => 80 * Math.exp(share)) });
  const all = (value: number): Float64Array => new Float64Array(SECONDS).fill(value);
  const trace = {
    model: { logDevelopment: Float64Array.from(LEVELS), rings: 1, cogs: LEVELS.length },
    cog: new Int8Array(SECONDS).fill(COG),
    ring: new Int8Array(SECONDS),
    driving: all(1),
    deviation: all(deviation),
    logDevelopment: Float64Array.from(ahead, (share) => LEVELS[COG] - share),
    commands: { timeS: Float64Array.of(askedS), cog: Int8Array.of(COG), ring: Int8Array.of(0) },
  };
  return skipDips(log, trace as unknown as RideTrace, 0).map(({ start, end }) => [start, end]);
}

describe('a dip', () => {
  it('is found once, also where its second record alone would be one soon after a command', () => {
    for (const askedS of [0, DIP_S - 2]) {
      expect(found({ dip: [0.3], askedS })).toEqual([[DIP_S, DIP_S + 1]]);
      expect(found({ dip: [0.13, 0.3], askedS })).toEqual([[DIP_S, DIP_S + 2]]);
    }
  });

  it('is one of the legs only where they run ahead by half of it from the records beside it', () => {
    expect(found({ dip: [0.19], before: 0.08, deviation: 0.03 })).toEqual([[DIP_S, DIP_S + 1]]);
    // the ratio lay low already
    expect(found({ dip: [0.15], before: 0.08, deviation: 0.03 })).toEqual([]);
    expect(found({ dip: [0.15], before: 0.02, deviation: 0.03 })).toEqual([[DIP_S, DIP_S + 1]]);
  });

  it('is none where legs that trailed the wheel seem to turn twice as fast: a sensor counted them twice', () => {
    expect(found({ dip: [0.4], before: -0.19, deviation: 0.07 })).toEqual([[DIP_S, DIP_S + 1]]);
    expect(found({ dip: [0.49], before: -0.19, deviation: 0.07 })).toEqual([]);
  });
});
