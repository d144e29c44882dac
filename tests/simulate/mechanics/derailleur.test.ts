import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../../src/numeric/seeded-random.ts';
import { Derailleur } from '../../../src/simulate/mechanics/derailleur.ts';
import { recentringMm } from '../../../src/simulate/mechanics/hanger.ts';
import { exactBike } from './sound-bike.ts';

const DT_S = 1 / 32;

/** Mean place of the cage over many shifts by one cog, relative to the cog shifted to, mm. */
function meanError(changes: Parameters<typeof exactBike>[0], from: number, to: number, settleS = 1.5): number {
  let sum = 0;
  const shifts = 60;
  for (let i = 0; i < shifts; i++) {
    const condition = exactBike(changes);
    const derailleur = new Derailleur(condition, from, false, seededRandom(i, 'derailleur'));
    derailleur.press(to - from);
    for (let t = 0; t < settleS; t += DT_S) derailleur.step(DT_S, 0, 0);
    sum += derailleur.pulleyMm - to * condition.pitchMm;
  }
  return sum / shifts;
}

describe('Derailleur', () => {
  it('comes to rest under the cog it was sent to, either way', () => {
    expect(Math.abs(meanError({ frictionN: 0 }, 5, 6))).toBeLessThan(0.06);
    expect(Math.abs(meanError({ frictionN: 0 }, 6, 5))).toBeLessThan(0.06);
  });

  it('is carried by the barrel offset at every cog', () => {
    for (const cog of [2, 5, 9]) expect(meanError({ frictionN: 0, offsetMm: -0.8 }, cog - 1, cog)).toBeCloseTo(-0.8, 1);
  });

  it('stops at the stop screws, which touch only the end cogs', () => {
    const condition = exactBike({ highStopMm: 1, lowStopMm: -1 });
    const derailleur = new Derailleur(condition, 1, false, seededRandom(1));
    derailleur.press(-1);
    for (let t = 0; t < 2; t += DT_S) derailleur.step(DT_S, 0, 0);
    expect(derailleur.cageMm).toBe(1);
    derailleur.press(20);
    for (let t = 0; t < 2; t += DT_S) derailleur.step(DT_S, 0, 0);
    expect(derailleur.cageMm).toBeCloseTo(11 * condition.pitchMm - 1, 9);
    expect(Math.abs(meanError({ highStopMm: 1, lowStopMm: -1, frictionN: 0 }, 4, 5))).toBeLessThan(0.06);
  });

  it('with a dragging cable hangs back on the way to smaller cogs, most where the spring is weakest', () => {
    const drag = { frictionN: 9 };
    expect(meanError(drag, 6, 5, 0.6)).toBeGreaterThan(0.3);
    expect(meanError(drag, 2, 1, 0.6)).toBeGreaterThanOrEqual(meanError(drag, 9, 8, 0.6) - 0.05);
    // The thumb pulls past the detent, so the way to larger cogs suffers less.
    expect(Math.abs(meanError(drag, 5, 6, 0.6))).toBeLessThan(meanError(drag, 6, 5, 0.6));
  });

  it('with a bent hanger errs with opposite sign at the two ends once the middle is brought back', () => {
    const bent = exactBike({ hangerBendRad: 0.06 });
    const changes = { frictionN: 0, hangerBendRad: 0.06, recentredMm: recentringMm(bent) };
    expect(meanError(changes, 2, 1)).toBeLessThan(-0.5);
    expect(meanError(changes, 9, 10)).toBeGreaterThan(0.5);
    expect(Math.abs(meanError(changes, 4, 5))).toBeLessThan(0.2);
  });

  it('moves by whole detents and not past the last ones', () => {
    const derailleur = new Derailleur(exactBike(), 10, false, seededRandom(1));
    expect(derailleur.press(3)).toBe(1);
    expect(derailleur.press(1)).toBe(0);
    expect(derailleur.commanded).toBe(11);
  });

  it('driven by a servo knows neither drag nor detents but its offset', () => {
    const condition = exactBike({ offsetMm: 0.5, frictionN: 15 });
    const derailleur = new Derailleur(condition, 6, true, seededRandom(2));
    derailleur.press(-2);
    for (let t = 0; t < 2; t += DT_S) derailleur.step(DT_S, 0, 0);
    expect(derailleur.cageMm - 4 * condition.pitchMm).toBeGreaterThan(0.1);
    expect(derailleur.cageMm - 4 * condition.pitchMm).toBeLessThan(0.9);
  });
});
