import { describe, expect, it } from 'vitest';
import { cogPitchMm, usualCogPitchMm } from '../../src/drivetrain/cog-pitch.ts';
import { developmentM, gearRatio } from '../../src/drivetrain/development.ts';
import { barrelTravelMm, guideTravelMm } from '../../src/drivetrain/indexing.ts';
import { tyreRolloutMm } from '../../src/drivetrain/tyre-rollout.ts';
import gears from '../checks/gear-arithmetic.json' with { type: 'json' };
import indexing from '../checks/indexing.json' with { type: 'json' };
import tyres from '../checks/tyre-rollout.json' with { type: 'json' };

const INCH_M = 0.0254;

describe('rollout from the tyre size', () => {
  it.each(tyres.formula.rows)('$tyre is $rolloutMm mm by the formula', ({ tyre, rolloutMm }) => {
    expect(Math.abs(tyreRolloutMm(tyre) - rolloutMm)).toBeLessThan(tyres.formula.toleranceMm);
  });

  it.each(
    [tyres.publishedSettings, tyres.rollingRadius].flatMap((table) =>
      table.rows.map((row) => ({ ...row, tolerance: table.toleranceShare })),
    ),
  )('$tyre lies near the published $rolloutMm mm', ({ tyre, rolloutMm, tolerance }) => {
    expect(Math.abs(tyreRolloutMm(tyre) / rolloutMm - 1)).toBeLessThan(tolerance);
  });

  it('is NaN for what is no tyre size', () => {
    for (const text of ['', '622', '2.25x29', '57x622', '5-622', '57-62']) expect(tyreRolloutMm(text)).toBeNaN();
  });
});

describe('gear arithmetic', () => {
  it.each(gears.gearInches.rows)('$ring/$cog on $wheelInches inches is $gearInches', (row) => {
    const inches = gearRatio(row.ring, row.cog) * row.wheelInches;
    expect(Math.abs(inches - row.gearInches)).toBeLessThan(gears.gearInches.toleranceInches);
  });

  it.each(gears.crankTurnInches.rows)('a turn of the cranks in $ring/$cog covers $inches inches', (row) => {
    const rolloutMm = Math.PI * row.wheelInches * INCH_M * 1000;
    const inches = developmentM(rolloutMm, row.ring, row.cog) / INCH_M;
    expect(Math.abs(inches - row.inches)).toBeLessThan(gears.crankTurnInches.toleranceInches);
  });
});

describe('indexing', () => {
  it.each(indexing.shiftEquation.rows)('$cogs cogs: $pullMm mm x $ratio gives $pitchMm mm', (row) => {
    expect(Math.abs(guideTravelMm(row.pullMm, row.ratio) - row.pitchMm)).toBeLessThanOrEqual(
      indexing.shiftEquation.toleranceMm,
    );
  });

  it.each([6, 7, 8, 9, 10, 11, 12])('the usual pitch of %i cogs is a published one', (cogs) => {
    const { toleranceMm, makersDifferByMm } = indexing.usualPitch;
    const off = indexing.shiftEquation.rows
      .filter((row) => row.cogs === cogs)
      .map(({ pitchMm }) => Math.abs(usualCogPitchMm(cogs) - pitchMm));
    expect(Math.min(...off)).toBeLessThan(toleranceMm);
    expect(Math.max(...off)).toBeLessThan(makersDifferByMm + toleranceMm);
  });

  it.each(indexing.barrel.rows)('a quarter turn of the barrel at ratio $ratio', ({ ratio, travelMm }) => {
    expect(Math.abs(barrelTravelMm(0.25, ratio) - travelMm)).toBeLessThan(indexing.barrel.toleranceMm);
  });

  it('ten cogs stand as wide as published', () => {
    const { cogThicknessMm, stackMm, toleranceMm } = indexing.stack;
    expect(Math.abs(9 * usualCogPitchMm(10) + cogThicknessMm - stackMm)).toBeLessThan(toleranceMm);
  });

  it('takes the bike file before the usual pitch, and knows no pitch outside 5 to 13 cogs', () => {
    const cassette = [11, 13, 15, 18, 21];
    expect(cogPitchMm({ cassette, cogPitchMm: 4.05 })).toBe(4.05);
    expect(cogPitchMm({ cassette })).toBe(usualCogPitchMm(5));
    expect(usualCogPitchMm(4)).toBeNaN();
    expect(usualCogPitchMm(14)).toBeNaN();
  });
});
