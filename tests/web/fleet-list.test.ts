import { parseHTML } from 'linkedom';
import { describe, expect, it, vi } from 'vitest';
import type { Fleet, FleetBike } from '../../web/add-rides/fleet.ts';
import { type FolderStatus, filesTold, fleetRow, leftOutRow } from '../../web/add-rides/fleet-row.ts';
import type { SentBike } from '../../web/add-rides/fleet-send.ts';
import { fleetStep } from '../../web/add-rides/fleet-step.ts';
import type { BikeSummary } from '../../web/api/answers.ts';

const { document, Node } = parseHTML('<!doctype html><html><body></body></html>');
vi.stubGlobal('document', document);
vi.stubGlobal('Node', Node);

const good = { file: new File(['x'], 'log.csv'), count: 1, fault: null };
const broken = { file: new File(['x'], 'broken.csv'), count: null, fault: 'broken.csv: is broken.' };
const bike = (change: Partial<FleetBike> = {}): FleetBike => ({
  folder: 'h1',
  bike: { name: 'Hut bike', chainrings: [32], cassette: [11, 13, 15, 17, 19], actuation: 'cable' },
  here: null,
  doubt: null,
  rides: [new File(['x'], 'a.fit')],
  adjustments: [good, broken],
  ...change,
});
const there = { id: 'b1' } as BikeSummary;
const sent = (change: Partial<SentBike> = {}): FolderStatus => ({
  step: 'sent',
  sent: {
    bikeId: 'b1',
    uploadIds: ['u1'],
    rides: [{ name: 'a.fit', status: 'duplicate' }],
    adjustments: [],
    ...change,
  },
  settled: new Map(),
});
const LEFT_OUT = /broken\.csv: .*left out until it is put right/i;

describe('the row of a folder', () => {
  it.each([
    ['it waits', { step: 'waiting' } as const],
    ['it is being sent', { step: 'sending' } as const],
    ['it was refused', { step: 'refused', why: 'Too large.' } as const],
    ['it was sent', sent()],
  ])('names the file that was left out while %s', (_, status) => {
    expect(fleetRow(bike(), status).textContent).toMatch(LEFT_OUT);
  });

  it('says why it was refused too', () => {
    expect(fleetRow(bike(), { step: 'refused', why: 'Too large.' }).textContent).toContain('Too large.');
  });

  it('says why no bike was made: its rides cannot be read, or are here already, and where', () => {
    const row = (rides: SentBike['rides']) => fleetRow(bike(), sent({ bikeId: null, rides })).textContent;
    expect(row([{ name: 'a.fit', status: 'refused', message: 'is no ride' }])).toContain(
      'none of its rides can be read',
    );
    expect(row([{ name: 'a.fit', status: 'duplicate', message: 'It is already here, on Hut 2.' }])).toMatch(
      /none of its rides is new\. .*on Hut 2\./,
    );
  });

  it('is bad once all is done and something was not taken, and not before', () => {
    const open = fleetRow(bike(), sent({ rides: [{ name: 'a.fit', status: 'queued' }] }));
    expect([open.className, fleetRow(bike(), sent()).className]).toEqual(['', 'is-bad']);
    expect(fleetRow(bike({ adjustments: [good] }), sent()).className).toBe('');
  });
});

it('counts what was left out of folders that were sent, and no file of a folder that was not', () => {
  const refused: FolderStatus = { step: 'refused', why: 'Too large.' };
  expect(filesTold([bike(), bike()], [sent(), refused])).toEqual({ known: 1, faulty: 1 });
  // each by its own folder: what the first left out is no part of the second
  expect(filesTold([bike(), bike({ adjustments: [good] })], [refused, sent()])).toEqual({ known: 1, faulty: 0 });
});

it('names a folder from which nothing was taken, and why', () => {
  const row = leftOutRow({ folder: 'h3', why: 'No bike file.' });
  expect(row.textContent).toBe('h3left outNo bike file.');
  expect(row.className).toBe('is-bad');
});

it('folds many folders away, but for those of which there is something to say', () => {
  const plain = (count: number): FleetBike[] =>
    Array.from({ length: count }, (_, i) => bike({ folder: `sound-${i + 1}`, adjustments: [good] }));
  const few = fleetStep({ bikes: [...plain(8), bike()], leftOut: [] }, () => {});
  expect(few.querySelector('details')).toBeNull();
  const many = fleetStep({ bikes: [...plain(9), bike()], leftOut: [] }, () => {});
  const fold = many.querySelector('details');
  expect(fold?.querySelector('summary')?.textContent).toBe('9 folders without a remark');
  expect(fold?.querySelectorAll('h3')).toHaveLength(9);
  const open = [...many.querySelectorAll('h3')].filter((name) => !fold?.contains(name));
  expect(open.map(({ textContent }) => textContent)).toEqual(['h1']);
});

describe('what is sent on', () => {
  /** The fleet that the button of the step begins with; null where it has none. */
  const begun = (fleet: Fleet): Fleet | null => {
    let started: Fleet | null = null;
    const step = fleetStep(fleet, (one) => {
      started = one;
    });
    step.querySelector('button')?.click();
    return started;
  };

  it('are the folders with anything new, with all that was left out, also of those that bring nothing else', () => {
    const known = bike({ folder: 'h2', here: there, rides: [], adjustments: [broken] });
    const still = bike({ folder: 'h4', here: there, rides: [], adjustments: [] });
    const leftOut = [{ folder: 'h3', why: 'No bike file.' }];
    const fleet = begun({ bikes: [bike(), known, still], leftOut });
    expect(fleet?.bikes.map(({ folder }) => folder)).toEqual(['h1']);
    expect(fleet?.leftOut).toEqual([...leftOut, { folder: 'h2', why: expect.stringMatching(LEFT_OUT) }]);
  });

  it('are known bikes with new files, and new bikes without any', () => {
    const known = bike({ folder: 'h5', here: there, adjustments: [] });
    const empty = bike({ folder: 'h6', rides: [], adjustments: [] });
    expect(begun({ bikes: [known, empty], leftOut: [] })?.bikes.map(({ folder }) => folder)).toEqual(['h5', 'h6']);
  });

  it('is nothing where nothing is new', () => {
    expect(begun({ bikes: [bike({ here: there, rides: [], adjustments: [broken] })], leftOut: [] })).toBeNull();
  });
});
