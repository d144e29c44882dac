import { describe, expect, it } from 'vitest';
import { diagnose } from '../../src/diagnosis/diagnose.ts';
import { cogCell, LOAD_BINS, outcomes } from '../../src/diagnosis/evidence/evidence-table.ts';
import { DRAW_DIMENSIONS, readDraw } from '../../src/diagnosis/imagined-bike/draw.ts';
import { faultySetup } from '../../src/diagnosis/imagined-bike/faulty-setup.ts';
import { healthySetup } from '../../src/diagnosis/imagined-bike/healthy-setup.ts';
import { emptyRates, fillRates } from '../../src/diagnosis/imagined-bike/pulley-rates.ts';
import { cableBike, cassette, healthyPattern, patternRide } from './pattern-ride.ts';

const COGS = cassette.length;
/** The load bin of shifts whose torque is not known. */
const UNKNOWN_LOAD = 3;

/** Chances of late and missed shifts onto the largest cog, where a small gap of the middling bike holds back such a share. */
function ontoLargest(gapTrouble: number, gapTurnByTurn: number): { late: number; missed: number } {
  const draw = readDraw(new Float64Array(DRAW_DIMENSIONS).fill(0.5), 0);
  const healthy = { ...healthySetup(draw, 3.65, false), backgroundIn: 0, backgroundOut: 0, rider: 0, lateSeen: 1 };
  const setup = {
    ...faultySetup('pulley-gap-small', draw, healthy),
    gapTrouble,
    gapTurnByTurn,
    gapMissed: 0,
    gap: -20,
  };
  const rates = emptyRates(COGS, [UNKNOWN_LOAD], new Uint8Array(2 * COGS).fill(1));
  fillRates(setup, new Float64Array(COGS).fill(1), rates);
  const at = (cogCell(COGS, true, COGS - 1) * LOAD_BINS + UNKNOWN_LOAD) * outcomes.length;
  return { late: rates.outcome[at + 1], missed: rates.outcome[at + 2] };
}

describe('a small pulley gap', () => {
  it('misses what each turn’s same chance leaves after five turns, where chances come turn by turn', () => {
    for (const held of [0.3, 0.6, 0.9]) {
      const { late, missed } = ontoLargest(held, 1);
      // geometric waiting time: the chance that a turn leaves the chain where it is, from the turns of a clean and of a late shift (contract)
      const stays = held ** (1 / 1.5);
      expect(missed / (late + missed)).toBeCloseTo(stays ** 5 / held, 2);
    }
  });

  it('misses none where each shift comes through in the end', () => {
    expect(ontoLargest(0.9, 0).missed).toBeLessThan(0.01);
  });

  it('is named where it lets hardly any shift onto the largest cogs through, and no other fails', () => {
    const missed: Readonly<Record<number, number>> = { [COGS - 1]: 1, [COGS - 2]: 0.5, [COGS - 3]: 0.25 };
    const rides = [0, 1].map((day) =>
      patternRide({
        day,
        pattern: (cog, larger) => (larger && missed[cog] ? { missed: missed[cog] } : healthyPattern(cog)),
      }),
    );
    const { causes } = diagnose({ bike: cableBike, rides, adjustments: [] });
    expect(causes[0].cause).toBe('pulley-gap-small');
    expect(causes[0].probability).toBeGreaterThan(0.5);
  });
});
