import { describe, expect, it } from 'vitest';
import type { Diagnosis } from '../../../src/diagnosis/diagnosis.ts';
import { bentHanger, healthyPattern } from '../pattern-ride.ts';
import { lost, pastTheMark, shortOf, slow, type Turn, verdictOn } from './adjusted-bikes.ts';

const tension = (amount: number): Turn => ['cable-tension', amount];
const [slowToLarger, slowToSmaller] = [slow('to-larger'), slow('to-smaller')];
const sense = ({ suggestion }: Diagnosis): string[] =>
  `${suggestion.action} ${suggestion.start}`.match(/\b(anticlockwise|clockwise|inboard|outboard)\b/g) ?? [];

describe('tension that was turned past the mark', () => {
  it.each(pastTheMark)('%s: is taken back, and the direction that fails now is looked at', (name, rides, bike) => {
    const verdict = verdictOn(rides, bike);
    const { causes, now, clicks, suggestion, stillThere, cured } = verdict;
    expect(causes[0].cause).toBe('cable-tension-low');
    expect(now).toMatchObject({ fault: 'cable-tension-high', setting: 'overdone', byLastAdjustment: true });
    // a mild fault hardly tells how far a click moved it: that the other direction fails now does
    expect(now.pastTheMark).toBeGreaterThan(name.includes('mild') ? 0.1 : 0.5);
    expect([stillThere < 0.25, cured]).toEqual([true, false]);
    expect(clicks.mean).toBeLessThan(0);
    expect(suggestion.parameter).toBe(clicks.parameter);
    expect(suggestion.action).toMatch(/^The last adjustment went too far\. (Take back a part|Move the .* back) /);
    expect(new Set(sense(verdict))).toEqual(new Set([bike.actuation === 'cable' ? 'clockwise' : 'outboard']));
    expect(suggestion.verify).toMatch(/shifts to smaller cogs, onto the 39 to the 12 /);
    expect(now.since.toSmaller.trouble).toBeGreaterThan(10);
    expect(now.since.toLarger.trouble).toBe(0);
  });

  it('is taken back too where the cause at first is open and its other side fails now', () => {
    const verdict = verdictOn([{ pattern: slowToSmaller }, { pattern: slowToLarger, after: tension(-8) }]);
    expect(verdict.clicks.mean).toBeGreaterThan(0);
    expect(verdict.now).toMatchObject({ fault: 'cable-tension-low', setting: 'overdone' });
    expect(new Set(sense(verdict))).toEqual(new Set(['anticlockwise']));
    expect(verdict.suggestion.verify).toMatch(/shifts to larger cogs/);
  });

  it('is looked at where it fails now, however many rides failed the other way before', () => {
    const before = Array.from({ length: 4 }, () => ({ pattern: slowToLarger }));
    const { now, suggestion } = verdictOn([...before, { pattern: slowToSmaller, after: tension(8) }]);
    expect(now.setting).toBe('overdone');
    expect(suggestion.verify).toMatch(/at least 9 shifts to smaller cogs, onto the 39 to the 12 /);
  });

  it('is still too much after a click back, which is said of the earlier adjustment', () => {
    const verdict = verdictOn([
      { pattern: slowToLarger },
      { pattern: slowToSmaller, after: tension(8) },
      { pattern: slow('to-smaller', 0.08, 0.05), after: tension(-1) },
    ]);
    expect(verdict.now).toMatchObject({ setting: 'overdone', byLastAdjustment: false });
    expect(verdict.suggestion.action).toMatch(/^An earlier adjustment went too far, and it is still too much/);
    expect(new Set(sense(verdict))).toEqual(new Set(['clockwise']));
  });

  it('is cured once it is taken back to where it belongs, and is the first fault again when it is taken back too far', () => {
    const far = [{ pattern: slowToLarger }, { pattern: slowToSmaller, after: tension(8) }] as const;
    const back = verdictOn([...far, { pattern: healthyPattern, after: tension(-4) }]);
    expect([back.now.setting, back.now.fault, back.cured]).toEqual(['cured', 'no-fault', true]);
    expect(back.suggestion.action).toMatch(/^Leave it as it is: .* cured too low a cable tension/);
    const again = verdictOn([...far, { pattern: slowToLarger, after: tension(-8) }]);
    expect(again.now).toMatchObject({ fault: 'cable-tension-low', setting: 'same' });
    expect([again.clicks.mean > 0, sense(again).includes('clockwise')]).toEqual([true, false]);
  });

  it('does not take back the clicks that were turned on a bent hanger in vain', () => {
    const { now, suggestion } = verdictOn([{ pattern: bentHanger }, { pattern: bentHanger, after: tension(4) }]);
    expect([now.setting, suggestion.parameter]).toEqual(['same', 'hanger']);
  });
});

describe('tension that was turned as far as it should be, or less', () => {
  it('is cured by the right amount', () => {
    const { now, cured, stillThere } = verdictOn([
      { pattern: slowToLarger },
      { pattern: healthyPattern, after: tension(4) },
    ]);
    expect([now.setting, now.fault, cured]).toEqual(['cured', 'no-fault', true]);
    expect(stillThere).toBeLessThan(0.25);
  });

  it('is turned on the same way while the fault is there, adjusted or not', () => {
    for (const after of [tension(1), undefined]) {
      const verdict = verdictOn([{ pattern: slowToLarger }, { pattern: slowToLarger, after }]);
      expect(verdict.now).toMatchObject({ fault: 'cable-tension-low', setting: 'same' });
      expect(verdict.now.since.at === null).toBe(after === undefined);
      expect([verdict.clicks.mean > 0, verdict.suggestion.parameter]).toEqual([true, 'cable-tension']);
      expect(new Set(sense(verdict))).toEqual(new Set(['anticlockwise']));
      expect(verdict.suggestion.verify).toMatch(/shifts to larger cogs/);
    }
  });

  it('says how many clicks of about how many are done while the fault is there', () => {
    const first = { pattern: slowToLarger };
    const partly = verdictOn([first, { ...first, after: tension(1) }, { ...first, after: tension(1) }]);
    expect(partly.now.setting).toBe('same');
    expect(partly.suggestion.start).toMatch(/ 2 clicks of about \d+ are done\. It may take another /);
    expect(verdictOn([first, first]).suggestion.start).not.toMatch(/done/);
  });
});

describe('a limit screw that was opened too far', () => {
  const cases = [
    ['low-limit', 'largest', 'past-largest', '45 onto the 51'],
    ['high-limit', 'smallest', 'past-smallest', '12 onto the 10'],
  ] as const;

  describe.each(cases)('%s', (parameter, end, side, onto) => {
    const opened = { pattern: shortOf(end) };

    it.each([1, 6])('is closed again where %i chains were lost past that end since, never left as it is', (count) => {
      const after: Turn = [parameter, -2];
      const { causes, now, cured, suggestion, checkRide, separates } = verdictOn([
        opened,
        { pattern: healthyPattern, drops: lost(side, count), after },
      ]);
      expect(causes[0].cause).toBe(`${parameter}-tight`);
      expect(now).toMatchObject({ fault: `${parameter}-loose`, setting: 'overdone', byLastAdjustment: true });
      expect([cured, suggestion.parameter, suggestion.inspectFirst]).toEqual([false, parameter, true]);
      expect(suggestion.action).toMatch(
        /^The last adjustment went too far\. Turn the .* back in \(clockwise\) by a part of the 2 turns it was opened/,
      );
      expect(`${suggestion.action} ${suggestion.start}`).not.toMatch(/anticlockwise|Leave it as it is/);
      expect(suggestion.start).toMatch(new RegExp(`keep off the ${end} cog`));
      // proved on a stand, and no ride is asked for onto that cog
      expect(suggestion.verify).toMatch(new RegExp(`from the ${onto} on a stand, .* keep off that cog on any ride`));
      expect(suggestion.verify).not.toMatch(/next ride/);
      const teeth = checkRide.blocks.flatMap(({ fromTeeth, toTeeth }) => [fromTeeth, toTeeth]);
      expect(teeth).not.toContain(end === 'largest' ? 51 : 10);
      expect(separates).toBeNull();
    });

    it('is closed again where a chain was lost before any shift could be judged', () => {
      const [before, after] = [[opened, opened, opened], [parameter, -0.5] as Turn];
      const ridden = { pattern: healthyPattern, shifts: 0, drops: lost(side, 1), after };
      const { causes, now, suggestion } = verdictOn([...before, ridden]);
      expect(causes[0].cause).toBe(`${parameter}-tight`);
      expect([now.setting, now.fault]).toEqual(['overdone', `${parameter}-loose`]);
      expect(suggestion.action).toMatch(/back in \(clockwise\) by a part of the 0\.5 turns/);
      // with one ride before, the screw was too far out from the beginning, for all that is known: it is closed all the same
      const once = verdictOn([opened, ridden]);
      expect([once.causes[0].cause, once.now.setting]).toEqual([`${parameter}-loose`, 'same']);
      expect(once.suggestion.action).not.toMatch(/anticlockwise/);
    });

    it('is cured once it is closed again by a part', () => {
      const { now, suggestion } = verdictOn([
        opened,
        { pattern: healthyPattern, drops: lost(side, 3), after: [parameter, -2] },
        { pattern: healthyPattern, after: [parameter, 1] },
      ]);
      expect([now.setting, suggestion.parameter]).toEqual(['cured', 'none']);
      expect(suggestion.action).toMatch(/^Leave it as it is/);
    });

    it('is not called cured where it may stand too far out by now, though no chain was lost yet', () => {
      const { now, cured, checkRide } = verdictOn([
        opened,
        opened,
        { pattern: healthyPattern, shifts: 6, after: [parameter, -4] },
      ]);
      expect([now.setting, cured]).toEqual(['unsettled', false]);
      expect(now.pastTheMark).toBeGreaterThan(0.25);
      const teeth = checkRide.blocks.flatMap(({ fromTeeth, toTeeth }) => [fromTeeth, toTeeth]);
      expect(teeth).not.toContain(end === 'largest' ? 51 : 10);
    });
  });

  it('is turned back out where it was closed too far', () => {
    const { causes, now, suggestion } = verdictOn([
      { pattern: healthyPattern, drops: lost('past-largest', 3) },
      { pattern: shortOf('largest'), after: ['low-limit', 3] },
    ]);
    expect(causes[0].cause).toBe('low-limit-loose');
    expect(now).toMatchObject({ fault: 'low-limit-tight', setting: 'overdone' });
    expect(suggestion.action).toMatch(/back out \(anticlockwise\) by a part of the 3 turns it was turned in/);
    expect(suggestion.verify).toMatch(/from the 45 onto the 51/);
  });

  it.each([
    [1, 12, 3],
    [3, 12, 3],
    [3, 40, 3],
  ])(
    'is looked at on a stand before it is turned back out where a chain was lost past it: %i, then %i shifts',
    (count, shifts, turns) => {
      const { now, suggestion } = verdictOn([
        { pattern: healthyPattern, drops: lost('past-largest', count) },
        { pattern: shortOf('largest'), shifts, after: ['low-limit', turns] },
      ]);
      expect(now).toMatchObject({ fault: 'low-limit-tight', setting: 'overdone' });
      const [look, turn] = ['the guide pulley should stop straight below', 'turn the low limit screw back out'];
      expect(suggestion.action.indexOf(look)).toBeGreaterThan(0);
      expect(suggestion.action.indexOf(turn)).toBeGreaterThan(suggestion.action.indexOf(look));
      expect(suggestion.action).toMatch(
        /Only where it does not get that far: turn .* If it goes further, turn the screw in/,
      );
      expect(suggestion.start).toMatch(/^Look on a stand\. Only where it stops short, .* keep off the largest cog/);
      // how it fared as it was set before is no proof of how it is set then
      expect(suggestion.verify).toMatch(
        /^On a stand make at least .* from the 45 onto the 51, .* Once it does, (make|shift onto it as riding asks for it, .*:) [1-9]\d* shifts? (onto it on purpose on rides|would show)/,
      );
    },
  );
});

describe('a limit screw that was closed after the chain was lost past it', () => {
  const clean = (): object => ({});
  const closed = (days: number) =>
    verdictOn([
      { pattern: clean, drops: lost('past-largest', 1) },
      { pattern: clean, after: ['low-limit', 0.5] },
      ...Array.from({ length: days }, () => ({ pattern: clean })),
    ]);

  it('is not called cured before its entry is said to have helped, and both ask for as many more shifts', () => {
    const { now, cured, suggestion, comparisons } = closed(1);
    const [{ probabilityBetter, shiftsStillNeeded }] = comparisons;
    expect(probabilityBetter).toBeGreaterThan(0.75);
    expect(probabilityBetter).toBeLessThan(0.95);
    expect([now.setting, cured, now.keepOff]).toEqual(['unsettled', false, []]);
    expect(suggestion.action).toMatch(
      /^Shift onto the largest cog on a stand, then ride, .* does not tell yet whether a low limit screw too far out is put right/,
    );
    expect(suggestion.verify).toMatch(
      new RegExp(
        `^Try it on a stand first, .* stays on there, make ${shiftsStillNeeded} more shifts onto it on purpose on rides`,
      ),
    );
  });

  it('is cured once its entry helped', () => {
    const { now, cured, comparisons } = closed(6);
    expect(comparisons[0].probabilityBetter).toBeGreaterThan(0.95);
    expect([now.setting, cured]).toEqual(['cured', true]);
  });
});

describe('a chain lost past an end since the last adjustment', () => {
  it('leaves nothing cured, and has that limit looked at by hand first', () => {
    const { now, cured, suggestion } = verdictOn([
      { pattern: slowToLarger },
      { pattern: healthyPattern, drops: lost('past-largest', 1), after: tension(4) },
    ]);
    expect([now.setting, cured, suggestion.parameter]).toEqual(['another', false, 'low-limit']);
    expect(suggestion.action).toMatch(/hanger.*see on a stand how far the .*limit.* lets the derailleur go/);
    expect(suggestion.verify).not.toMatch(/next ride/);
  });

  it('never has that limit opened', () => {
    const { causes, suggestion } = verdictOn([
      { pattern: shortOf('largest') },
      { pattern: shortOf('largest'), drops: lost('past-largest', 1), after: tension(1) },
    ]);
    expect(causes[0].cause).toBe('low-limit-tight');
    expect(suggestion.parameter).toBe('low-limit');
    expect(`${suggestion.action} ${suggestion.start}`).not.toMatch(/anticlockwise/);
    expect(suggestion.action).toMatch(
      /^Have the hanger gauged, above all .*; then see on a stand how far the low limit screw lets the derailleur go: the chain was lost/,
    );
  });

  it('keeps a check of a bent hanger off that cog', () => {
    const { causes, suggestion } = verdictOn([
      { pattern: bentHanger },
      { pattern: bentHanger, drops: lost('past-largest', 1), after: tension(1) },
    ]);
    expect(causes[0].cause).toBe('hanger-bent');
    expect(suggestion.verify).toMatch(/over the whole cassette but for the 51, past which the chain was lost, with/);
    expect(suggestion.action).toMatch(
      / Then see on a stand how far the low limit screw .* adjustment\. Pushed by hand/,
    );
  });
});
