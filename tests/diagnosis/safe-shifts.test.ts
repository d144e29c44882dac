import { describe, expect, it } from 'vitest';
import { safeShifts } from '../../src/diagnosis/check-ride/safe-shifts.ts';
import type { Setup } from '../../src/diagnosis/imagined-bike/setup.ts';
import type { CassetteEnd } from '../../src/diagnosis/now/setting-now.ts';
import type { LookAhead } from '../../src/diagnosis/posterior/look-ahead.ts';
import type { Particle } from '../../src/diagnosis/posterior/particles.ts';

/** Of ten imagined bikes, so many with one room at both limits, the others in order. */
const lookAhead = (count: number, clear: number, cause: Particle['cause'] = 'low-limit-tight'): LookAhead =>
  ({
    particles: Array.from({ length: 10 }, (_, i) => {
      const room = i < count ? clear : 0.5;
      return { cause, now: { lowClear: room, highClear: room } as Setup } as Particle;
    }),
  }) as unknown as LookAhead;

/** Cogs of nine onto which soft shifts may be asked for. */
const safe = (ahead: LookAhead, ...keepOff: CassetteEnd[]): number[] => {
  const isSafe = safeShifts(ahead, 9, new Set(keepOff));
  return Array.from({ length: 9 }, (_, cog) => cog).filter((cog) => isSafe(cog, false));
};
const all = [0, 1, 2, 3, 4, 5, 6, 7, 8];

describe('safeShifts', () => {
  it('keeps off an end past which a chain was lost, however unlikely a loose limit is', () => {
    expect(safe(lookAhead(0, 0))).toEqual(all);
    expect(safe(lookAhead(0, 0), 'past-largest')).toEqual(all.slice(0, -1));
    expect(safe(lookAhead(0, 0), 'past-smallest')).toEqual(all.slice(1));
  });

  it('keeps off both ends where limits may have been opened too far, whatever the cause was', () => {
    expect(safe(lookAhead(1, 2))).toEqual(all);
    expect(safe(lookAhead(2, 2))).toEqual(all.slice(1, -1));
    expect(safe(lookAhead(0, 0, 'hanger-bent'))).toEqual(all.slice(0, -1));
  });
});
