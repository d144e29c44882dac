import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { ArchivedBike, ArchivedRide } from '../../server/archive/archive-shapes.ts';
import { mergeBikes } from '../../server/archive/merge-bikes.ts';
import { listAdjustments } from '../../server/store/adjustment-store.ts';
import { findBike, insertBike, listBikes } from '../../server/store/bike-store.ts';
import { openDatabase } from '../../server/store/open-database.ts';
import { findRide } from '../../server/store/ride-store.ts';
import type { Sql } from '../../server/store/sql.ts';
import { hutBike, valleyBike } from './made-rides.ts';
import { registerRide } from './register-ride.ts';

const [first, second, third] = [1, 2, 3].map((number) => `${number}`.padStart(16, '0'));
const adjustment = (number: number) => ({
  id: `${number}`.padStart(16, 'a'),
  at: '2026-04-12T18:30:00Z',
  parameter: 'cable-tension' as const,
  amount: number,
  unit: 'clicks' as const,
  note: '',
});
const archived = (id: string, bike = hutBike, adjustments: ArchivedBike['adjustments'] = []): ArchivedBike => ({
  id,
  bike,
  source: 'given',
  sample: false,
  notes: [],
  certainty: null,
  workshopMark: null,
  adjustments,
});

let folder: string;
let sql: Sql;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'cogwright-merge-'));
  sql = await openDatabase(join(folder, 'a.sqlite'), { backup: folder });
});
afterEach(() => {
  sql.database.close();
  rmSync(folder, { recursive: true, force: true });
});

const mergeWith = (rides: ArchivedRide[], ...bikes: ArchivedBike[]) =>
  sql.transaction(() => mergeBikes(sql, { bikes, rides }));
const merge = (...bikes: ArchivedBike[]) => mergeWith([], ...bikes);
/** A ride that is on one bike here and on another in the archive. */
function sharedRide(here: string, there: string): ArchivedRide {
  const { sha256 = '', file = '' } = findRide(sql, registerRide(sql, here)) ?? {};
  return { bikeId: there, file, sha256, archivedSha256: sha256, judgements: [] };
}
const idsHere = (): string[] => listBikes(sql).map(({ id }) => id);

describe('bikes of an archive that are described alike', () => {
  it('stay two where none is here, each with its own adjustments', () => {
    const merged = merge(archived(first, hutBike, [adjustment(1)]), archived(second, hutBike, [adjustment(2)]));
    expect(merged.bikes).toEqual({ added: 2, merged: 0 });
    expect(merged.adjustments).toEqual({ added: 2, known: 0 });
    expect([...merged.bikeIds]).toEqual([
      [first, first],
      [second, second],
    ]);
  });

  it('stay two where one or several here are described so too', () => {
    const here = insertBike(sql, hutBike, 'given');
    expect(merge(archived(first), archived(second)).bikes).toEqual({ added: 2, merged: 0 });
    expect(idsHere().sort()).toEqual([first, second, here].sort());
    expect(merge(archived(third)).bikes).toEqual({ added: 1, merged: 0 });
  });

  it('stay two where one of them is here by its id', () => {
    merge(archived(first));
    expect(merge(archived(second), archived(first)).bikes).toEqual({ added: 1, merged: 1 });
    expect(merge(archived(second), archived(first)).bikes).toEqual({ added: 0, merged: 2 });
    expect(idsHere().sort()).toEqual([first, second]);
  });
});

it('a bike is taken for the only one here that is described quite the same', () => {
  const here = insertBike(sql, hutBike, 'given');
  const merged = merge(archived(first), archived(second, valleyBike));
  expect(merged.bikes).toEqual({ added: 1, merged: 1 });
  expect([...merged.bikeIds]).toEqual([
    [first, here],
    [second, second],
  ]);
});

it('a bike that is added is described as it was there, and one that is here stays as it is', () => {
  const notes = [{ code: 'bike-guessed', message: 'Guessed from the rides.' }];
  const guessed: ArchivedBike = { ...archived(first), source: 'guessed', sample: true, notes, certainty: 0.7 };
  merge(guessed);
  const { id, bike, source, sample, certainty, ...there } = listBikes(sql)[0];
  expect({ id, bike, source, sample, notes: there.notes, certainty }).toEqual({
    ...{ id: first, bike: hutBike, source: 'guessed', sample: true, notes, certainty: 0.7 },
  });
  merge(archived(first, valleyBike));
  expect(listBikes(sql).map((stored) => stored.bike)).toEqual([hutBike]);
});

describe('adjustments of a bike that is here', () => {
  it('are known by moment, part and amount, or by their id, and else are added', () => {
    merge(archived(first, hutBike, [adjustment(1), adjustment(2)]));
    const otherwiseWritten = { ...adjustment(3), at: '2026-04-12T20:30:00+02:00', amount: 1, note: 'the same moment' };
    const changed = { ...adjustment(2), amount: 5 };
    const later = { ...adjustment(4), at: '2026-05-01T18:30:00Z', amount: 1 };
    const merged = merge(archived(first, hutBike, [otherwiseWritten, changed, later]));
    expect(merged.adjustments).toEqual({ added: 1, known: 2 });
    expect(listAdjustments(sql, first).map(({ amount }) => amount)).toEqual([1, 2, 1]);
  });

  it('have its report worked out anew where any is added, and only there', () => {
    merge(archived(first, hutBike, [adjustment(1)]));
    const revision = (): number | undefined => findBike(sql, first)?.revision;
    const before = revision() ?? 0;
    merge(archived(first, hutBike, [adjustment(1)]));
    expect(revision()).toBe(before);
    merge(archived(first, hutBike, [adjustment(1), adjustment(2)]));
    expect(revision()).toBe(before + 1);
  });

  it('that are on another bike here under the same id are added under one of their own', () => {
    merge(archived(first, hutBike, [adjustment(1)]));
    merge(archived(second, valleyBike, [adjustment(1)]));
    const [there, here] = [first, second].map((id) => listAdjustments(sql, id));
    expect([there.length, here.length]).toEqual([1, 1]);
    expect(here[0].id).not.toBe(there[0].id);
  });

  it('that say the same with other notes all come along', () => {
    const notes = [adjustment(1), { ...adjustment(2), amount: 1, note: 'by the spring' }];
    expect(merge(archived(first, hutBike, notes)).adjustments).toEqual({ added: 2, known: 0 });
  });
});

describe('rides that are here already', () => {
  it('tell bikes that are described alike', () => {
    const [one, other] = [insertBike(sql, hutBike, 'given'), insertBike(sql, hutBike, 'given')];
    const rides = [sharedRide(other, first), sharedRide(one, second)];
    const merged = mergeWith(rides, archived(first), archived(second));
    expect(merged.bikes).toEqual({ added: 0, merged: 2 });
    expect(Object.fromEntries(merged.bikeIds)).toEqual({ [first]: other, [second]: one });
  });

  it('are known as they are kept as well as by the file that was sent', () => {
    const [here, alike] = [insertBike(sql, hutBike, 'given'), insertBike(sql, hutBike, 'given')];
    const { keptSha256 = '' } = findRide(sql, registerRide(sql, here)) ?? {};
    const ride = { ...sharedRide(alike, first), sha256: 'f'.repeat(64), archivedSha256: keptSha256 };
    expect(mergeWith([ride], archived(first)).bikeIds.get(first)).toBe(here);
  });

  it('of a bike that the archive does not hold take no bike here away from another', () => {
    const here = insertBike(sql, hutBike, 'given');
    const merged = mergeWith([sharedRide(here, third)], archived(first));
    expect([...merged.bikeIds]).toEqual([[first, here]]);
  });

  it('from two bikes make their bike here the one that most of them are of, and the other is added', () => {
    const here = insertBike(sql, { ...hutBike, name: 'My own name' }, 'given');
    const rides = [sharedRide(here, first), sharedRide(here, second), sharedRide(here, second)];
    const merged = mergeWith(rides, archived(first, valleyBike), archived(second));
    expect(merged.bikes).toEqual({ added: 1, merged: 1 });
    expect(Object.fromEntries(merged.bikeIds)).toEqual({ [first]: first, [second]: here });
  });
});
