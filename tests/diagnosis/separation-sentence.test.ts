import { expect, it } from 'vitest';
import type { CassetteEnd } from '../../src/adjustments/end-cog-count.ts';
import type { Look } from '../../src/adjustments/looks.ts';
import {
  bestShift,
  fromWords,
  separateCauses,
  separationSentence,
  shiftsToAsk,
} from '../../src/diagnosis/check-ride/separate-causes.ts';

it('says what is told apart where no shift tells it, so that a test by hand does not stand as advice', () => {
  const between = ['no fault', 'a high limit screw too far out'];
  const hand = 'On the smallest cog, the guide pulley should stand a hair outside it.';
  expect(separationSentence('', [hand], between)).toBe(
    `Shifts hardly tell no fault from a high limit screw too far out; a look does. ${hand}`,
  );
  expect(separationSentence('Shifts onto the 10 tell most.', [hand], between)).toBe(
    `Shifts onto the 10 tell most. ${hand}`,
  );
  expect(separationSentence('', [], between)).toBe('');
});

it('asks for no shift that begins on a cog to be kept off, nor names larger or smaller cogs where one of them is', () => {
  const cassette = [10, 12, 14, 16, 18];
  // two causes that differ most in firm shifts off the largest cog, and the less the further away
  const lookAhead = {
    expect: ({ cog, larger, firm }: { cog: number; larger: boolean; firm: boolean }) => ({
      trouble: Float64Array.of(0.01, larger ? 0.02 : 0.1 + 0.15 * cog + (firm ? 0.35 : 0)),
      drop: Float64Array.of(0, 0),
    }),
  };
  const best = (...ends: CassetteEnd[]) => {
    const kept = { unseen: new Set<number>(), atRisk: new Set(ends) };
    const shift = bestShift(lookAhead, [[0], [1]], shiftsToAsk(cassette.length, kept));
    return shift && [cassette[shift.cog], fromWords(shift, cassette, kept), shift.firm];
  };
  // no firm shift off an end cog in any case
  expect(best()).toEqual([14, 'the 16', true]);
  expect(best('past-largest')).toEqual([12, 'the 14', true]);
  expect(best('past-smallest')).toEqual([14, 'the 16', true]);
  const from = (larger: boolean, firm: boolean, unseen: readonly number[], ...ends: CassetteEnd[]) =>
    fromWords({ cog: 2, larger, firm }, cassette, { unseen: new Set(unseen), atRisk: new Set(ends) });
  expect(from(true, false, [])).toBe('smaller cogs');
  expect(from(true, false, [], 'past-largest')).toBe('smaller cogs');
  expect(from(true, false, [], 'past-smallest')).toBe('the 12');
  expect(from(false, false, [0])).toBe('larger cogs');
  // one that no ride shows, and an end cog while pressing firmly
  expect(from(false, false, [4])).toBe('the 16');
  expect([from(true, true, []), from(false, true, [])]).toEqual(['the 12', 'the 16']);
});

it('asks for firm shifts only where they tell plainly more than soft ones', () => {
  const isFirm = (firmRate: number): boolean | undefined => {
    const lookAhead = {
      expect: ({ firm }: { firm: boolean }) => ({
        trouble: Float64Array.of(0.01, firm ? firmRate : 0.3),
        drop: Float64Array.of(0, 0),
      }),
    };
    return bestShift(lookAhead, [[0], [1]], shiftsToAsk(5, { unseen: new Set(), atRisk: new Set() }))?.firm;
  };
  expect([isFirm(0.34), isFirm(0.5)]).toEqual([false, true]);
});

it('asks for no look at a part that was found right, aligned or replaced', () => {
  const rivals = {
    between: ['low-limit-loose', 'hanger-bent'] as const,
    lookAhead: {
      particles: [],
      expect: () => ({ trouble: Float64Array.of(0.01, 0.02), drop: Float64Array.of(0, 0) }),
      skipsPerHour: Float64Array.of(0.1, 0.1),
    },
    rows: [[0], [1]] as const,
  };
  const on = { unseen: new Set<number>(), atRisk: new Set<CassetteEnd>(), cassette: [10, 12, 14, 16, 18] };
  const said = (...seen: Look['parameter'][]) =>
    separateCauses(rivals, {
      ...{ ...on, electronic: false, byHandOnly: true, judgesShifts: true, planned: [] },
      seenTo: seen.map((parameter) => ({ at: '2026-05-07T12:00:00Z', parameter, unit: 'done' })),
    })?.sentence ?? null;
  expect(said()).toMatch(/Pushed by hand, .* A hanger gauge tells within a minute\.$/);
  expect(said('hanger')).toMatch(/a look does\. Pushed by hand, .* no further\.$/);
  expect(said('hanger', 'low-limit')).toBeNull();
});

it('speaks of the check ride, where that tells the two apart, and of no other shift', () => {
  let judgesShifts = true;
  const said = (...planned: { cog: number; larger: boolean; firm: boolean }[]): string | undefined =>
    separateCauses(
      {
        between: ['cable-tension-low', 'hanger-bent'],
        // they differ most in shifts onto the fourth cog, and in those to smaller ones more
        lookAhead: {
          particles: [],
          expect: ({ cog, larger }) => ({
            trouble: Float64Array.of(0.01, cog === 3 ? 0.6 : larger ? 0.2 : 0.3),
            drop: Float64Array.of(0, 0),
          }),
          skipsPerHour: Float64Array.of(0.1, 0.1),
        },
        rows: [[0], [1]],
      },
      {
        ...{ unseen: new Set<number>(), atRisk: new Set<CassetteEnd>(), cassette: [10, 12, 14, 16, 18] },
        ...{ electronic: false, byHandOnly: false, judgesShifts, planned, seenTo: [] },
      },
    )?.sentence;
  expect(said()).toMatch(/^Shifts onto the 16 from smaller cogs, soft on the pedals, tell most/);
  const firm = { larger: true, firm: true };
  expect(said({ cog: 1, ...firm }, { cog: 0, larger: false, firm: true })).toMatch(
    /^Shifts onto the 10 from the 12, pressing firmly, tell most/,
  );
  // where no gear change is recorded, none is judged, however it goes
  judgesShifts = false;
  for (const planned of [[], [{ cog: 1, ...firm }]]) expect(said(...planned)).not.toMatch(/Shifts onto|tell most/);
});

it('says why more should go wrong without a fault than with one', () => {
  const said = (sound: number, faulty: number): string | undefined =>
    separateCauses(
      {
        between: ['cable-tension-low', 'no-fault'],
        lookAhead: {
          particles: [],
          expect: ({ firm }: { readonly firm: boolean }) => ({
            trouble: firm ? Float64Array.of(faulty, sound) : Float64Array.of(0.02, 0.02),
            drop: Float64Array.of(0, 0),
          }),
          skipsPerHour: Float64Array.of(0.1, 0.1),
        },
        rows: [[0], [1]],
      },
      {
        ...{ unseen: new Set<number>(), atRisk: new Set<CassetteEnd>(), cassette: [10, 12, 14, 16, 18] },
        ...{ electronic: false, byHandOnly: false, judgesShifts: true, planned: [], seenTo: [] },
      },
    )?.sentence;
  expect(said(0.4, 0.02)).toMatch(/with no fault about 40 %, since without a fault it would have to be hard pedalling/);
  expect(said(0.02, 0.4)).toMatch(/with no fault about 2 %\. /);
});
