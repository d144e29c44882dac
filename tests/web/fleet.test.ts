import { describe, expect, it } from 'vitest';
import { sortFiles } from '../../web/add-rides/companion-files.ts';
import { placedAt } from '../../web/add-rides/file-path.ts';
import { fleetOf } from '../../web/add-rides/fleet.ts';
import type { Bike, BikeSummary } from '../../web/api/answers.ts';

const hut: Bike = { name: 'Hut bike', chainrings: [32], cassette: [11, 13, 15, 18, 21], actuation: 'cable' };
const called = (name: string): Bike => ({ ...hut, name });
const log = 'at,parameter,amount,unit,note\n2026-05-01T10:00:00Z,chain,,,\n';
const ride = 'time_s,speed_mps\n0,1\n';
const here = (id: string, bike: Bike): BikeSummary => ({ id, bike }) as unknown as BikeSummary;

/** The fleet in files, each given by its path and its text. */
async function fleet(files: Readonly<Record<string, string>>, known: readonly BikeSummary[] = []) {
  const chosen = Object.entries(files).map(([path, text]) =>
    placedAt(path, new File([text], path.slice(path.lastIndexOf('/') + 1))),
  );
  const found = fleetOf(await sortFiles(chosen), known);
  return (
    found && {
      bikes: found.bikes.map(({ folder, bike, here: one, doubt, rides, adjustments }) => [
        folder,
        bike.name,
        one?.id ?? null,
        rides.map(({ name }) => name),
        adjustments.map(({ count }) => count),
        doubt,
      ]),
      leftOut: found.leftOut.map(({ folder, why }) => `${folder}: ${why}`),
    }
  );
}

describe('several bikes with a folder each', () => {
  const text = (name: string): string => JSON.stringify(called(name));

  it('are told apart by the folders, and what lies in one or below it is its bike’s', async () => {
    const { bikes, leftOut } = (await fleet(
      {
        'fleet/f2/bike.json': text('Two'),
        'fleet/f2/rides/a.csv': ride,
        'fleet/f10/bike.json': text('Ten'),
        'fleet/f10/a.csv': ride,
        'fleet/f10/log.csv': log,
      },
      [here('x', called('Ten'))],
    ))!;
    expect(bikes).toEqual([
      ['f2', 'Two', null, ['a.csv'], [], null],
      ['f10', 'Ten', 'x', ['a.csv'], [1], null],
    ]);
    expect(leftOut).toEqual([]);
  });

  it('have what lies in a folder below theirs, the nearest above it, and not what only begins with their name', async () => {
    const { bikes, leftOut } = (await fleet({
      'fleet/bike.json': text('Top'),
      'fleet/f1/bike.json': text('One'),
      'fleet/f1/rides/2026/a.csv': ride,
      'fleet/f10/b.csv': ride,
    }))!;
    expect(bikes.map(([folder, , , rides]) => [folder, rides])).toEqual([
      ['fleet', []],
      ['f1', ['a.csv']],
    ]);
    expect(leftOut).toEqual([expect.stringMatching(/^f10: 1 file belongs to none/)]);
  });

  it('are none where one bike alone is described, or several in one folder', async () => {
    expect(await fleet({ 'a/bike.json': text('One'), 'b/a.csv': ride })).toBeNull();
    expect(await fleet({ 'a/bike.json': text('One'), 'a/other.json': text('Two') })).toBeNull();
  });

  it('leave out by folder what is no one bike’s, and say why', async () => {
    const { bikes, leftOut } = (await fleet({
      'fleet/bike.json': text('Top'),
      'fleet/top.csv': ride,
      'fleet/f1/bike.json': '{"name": "One", "chainrings": [32]}',
      'fleet/f2/bike.json': text('Two'),
      'fleet/f3/bike.json': text('Two'),
      'fleet/f4/bike.json': text('Four'),
      'fleet/f4/other.json': text('Five'),
      'fleet/f5/a.csv': ride,
      'fleet/f5/log.csv': log,
    }))!;
    expect(bikes).toEqual([['fleet', 'Top', null, ['top.csv'], [], null]]);
    expect(leftOut.map((line) => line.slice(0, 4))).toEqual(['f1: ', 'f2: ', 'f3: ', 'f4: ', 'f5: ']);
    expect(leftOut[0]).toMatch(/^f1: bike\.json: .*cassette/);
    expect(leftOut[1]).toMatch(/f3 describes the same bike, “Two”/);
    expect(leftOut[3]).toContain('(bike.json, other.json)');
    expect(leftOut[4]).toMatch(/^f5: 2 files belong to none of the bikes, .*\(a\.csv, log\.csv\)/);
  });

  it('say so where two bikes here may be meant, and where a name is here with another drivetrain', async () => {
    const files = { 'f1/bike.json': text('One'), 'f2/bike.json': text('Two'), 'loose.csv': ride };
    const other = { ...called('Two'), cassette: [11, 13, 15, 18, 24] };
    const { bikes, leftOut } = (await fleet(files, [
      here('a', called('One')),
      here('b', called('One')),
      here('c', other),
    ]))!;
    expect(bikes).toEqual([['f2', 'Two', null, [], [], expect.stringContaining('with another drivetrain')]]);
    expect(leftOut).toEqual([
      expect.stringMatching(/^Without a folder: 1 file belongs to none/),
      expect.stringMatching(/^f1: 2 bikes here are called “One”/),
    ]);
  });
});
