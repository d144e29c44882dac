import { describe, expect, it } from 'vitest';
import type { AdjustmentReport } from '../../src/report/adjustment-report-schema.ts';
import { adjustmentEntries } from '../../src/report/words/adjustment-entries.ts';
import { adjustmentVerdict } from '../../src/report/words/adjustment-verdict.ts';
import { sampleReport } from './sample-report.ts';

describe('adjustmentVerdict', () => {
  const made: AdjustmentReport = { ...sampleReport().adjustments[0], probabilityBetter: 0.97, shiftsStillNeeded: 0 };
  const verdict = (change: Partial<AdjustmentReport>): string => adjustmentVerdict({ ...made, ...change });

  it('does not say that it helped where the trouble came back, or did harm where it only went on growing', () => {
    const count = (trouble: number) => ({ shifts: 100, trouble });
    const back = { at: '2026-05-09T08:00:00.000Z', until: count(0), since: count(22) };
    expect(verdict({ cameBack: back })).toMatch(
      /^It helped at first: .*went away for a while \(0 of 100 shifts went wrong\) and came back with the ride of 2026-05-09 08:00 UTC \(22 of 100 since\)\.$/,
    );
    const rides = { firstBefore: count(0), lastBefore: count(13), firstAfter: count(15), lastAfter: count(21) };
    expect(verdict({ wentOnGrowing: rides })).toBe(
      'Nothing shows that it changed anything: trouble grew ride by ride before (0 % in the first, 13 % in the last) and went on growing after (15 % in the first, 21 % in the last).',
    );
  });

  it('says which part got better and which worse, and what that points at', () => {
    const part = (name: 'to-larger' | 'to-smaller', teeth: number[], before: number, after: number) => ({
      part: name,
      teeth,
      before: { shifts: 20, trouble: before },
      after: { shifts: 20, trouble: after },
      probabilityBetter: 0.5,
    });
    const ways = {
      better: part('to-larger', [45, 51], 18, 4),
      worse: part('to-smaller', [10], 9, 18),
      noneCuresBoth: true,
    };
    const tension = { parameter: 'cable-tension', amount: 1, unit: 'clicks' };
    expect(verdict({ ...tension, oppositeWays: ways })).toMatch(
      /^It went two ways: better for shifts to larger cogs onto the 45 and 51 \(18 of 20 went wrong before, 4 of 20 after\), worse for .* the 10 .*as with a bent hanger\.$/,
    );
    expect(verdict({ ...tension, oppositeWays: { ...ways, noneCuresBoth: false } })).not.toMatch(/hanger/);
    expect(verdict({ parameter: 'pulley-gap', amount: 1, unit: 'turns', oppositeWays: ways })).not.toMatch(/hanger/);
  });

  it('says whether it helped, made it worse or is not decided', () => {
    expect(verdict({ probabilityBetter: 0.97 })).toMatch(/^It helped: trouble 26 %/);
    expect(verdict({ probabilityBetter: 0.02 })).toMatch(
      /^It made shifting worse: .*; worse with a probability of 98 %\./,
    );
    expect(verdict({ probabilityBetter: 0.6, shiftsStillNeeded: 40 })).toMatch(
      /^Not decided yet.*About 40 more judged shifts will tell whether that helped\.$/,
    );
  });

  it('waits for no more shifts on a setting that was changed since, and says what ended it', () => {
    const open = {
      parameter: 'cable-tension',
      amount: 2,
      unit: 'clicks',
      probabilityBetter: 0.6,
      shiftsStillNeeded: 40,
    };
    const next = (amount: number | null, parameter = 'cable-tension') =>
      verdict({ ...open, followedBy: { at: '2026-05-20T18:00:00Z', parameter, amount } });
    expect(next(3)).toMatch(/^Not decided yet .* No longer to be told: it was turned further on 2026-05-20\.$/);
    expect(next(-3)).toMatch(/turned back on 2026-05-20\.$/);
    expect(next(null, 'hanger')).toMatch(/No longer to be told by itself: other work was done on 2026-05-20\.$/);
    expect(next(3)).not.toContain('will tell');
    const decided = { probabilityBetter: 0.97, shiftsStillNeeded: 0 };
    const after = { at: '2026-05-20T18:00:00Z', parameter: 'cable-tension', amount: 3 };
    expect(verdict({ ...open, ...decided, followedBy: after })).not.toContain('No longer');
    const nothing = { ...made.after, shifts: 0, troubleRate: null };
    expect(verdict({ ...open, after: nothing, followedBy: after })).toMatch(/judged after it\. No longer to be told/);
  });

  it('tells what several turns the same way did together, where one does not tell', () => {
    const together = {
      ...{ fromAt: '2026-04-16T12:00:00Z', before: made.before, after: made.after, endCog: null },
      ...{ probabilityBetter: 0.98, shiftsStillNeeded: 0 },
    };
    const one = { probabilityBetter: 0.75, shiftsStillNeeded: null };
    expect(verdict({ ...one, together })).toMatch(
      /^Not decided yet .* 75 %\. To larger .* Together with what was turned the same way from 2026-04-16 on, it helped: trouble .* before, .* after; better with a probability of 98 %\.$/,
    );
    expect(verdict({ ...one, together: { ...together, probabilityBetter: 0.6, shiftsStillNeeded: 12 } })).toMatch(
      /that is not decided yet either: .* 60 %\. About 12 more judged shifts will tell whether that helped\.$/,
    );
    const count = (lost: number, shifts: number) => ({ asked: shifts, shifts, trouble: lost, lost });
    const endCog = (lost: number, shifts: number) =>
      ({ teeth: 11, end: 'past-smallest', before: count(lost, 4), after: count(0, shifts) }) as const;
    const screw = { ...together, endCog: endCog(3, 5), probabilityBetter: 0.88, shiftsStillNeeded: 4 };
    expect(verdict({ ...one, endCog: endCog(1, 3), together: screw })).toMatch(
      /0 of 3 since.* Together .*: 3 of 4 shifts onto the smallest cog .* 0 of 5 since; .* About 4 more judged shifts onto the smallest cog, once .* will tell whether that helped\.$/,
    );
  });

  it('judges a limit screw by its end cog, and sends nobody there before a stand has shown that the chain stays on', () => {
    const before = { asked: 2, shifts: 2, trouble: 1, lost: 1 };
    const said = (asked: number, shifts: number, change: Partial<AdjustmentReport>): string => {
      const after = { asked, shifts, trouble: 0, lost: 0 };
      return verdict({ endCog: { teeth: 51, end: 'past-largest', before, after }, ...change });
    };
    expect(said(38, 38, { probabilityBetter: 0.96, shiftsStillNeeded: 0 })).toBe(
      'It helped: 1 of 2 shifts onto the largest cog went wrong before (the chain was lost past it once), 0 of 38 since; better with a probability of 96 %.',
    );
    const more =
      /About 30 more judged shifts onto the largest cog, once the chain has stayed on there on a stand, will tell whether that helped\.$/;
    expect(said(1, 1, { probabilityBetter: 0.57, shiftsStillNeeded: 30 })).toMatch(/^Not decided yet .*, 0 of 1 since/);
    expect(said(1, 1, { probabilityBetter: 0.57, shiftsStillNeeded: 30 })).toMatch(more);
    expect(said(0, 0, { shiftsStillNeeded: 30 })).toMatch(/, and it was not asked for since\. About 30/);
    expect(said(2, 0, { shiftsStillNeeded: 30 })).toMatch(/asked for twice since, but none of that could be judged/);
  });

  it('waits for no more shifts onto a cog past which the chain was lost since, nor for what is taken back first', () => {
    const before = { asked: 10, shifts: 10, trouble: 3, lost: 3 };
    const after = { asked: 1, shifts: 1, trouble: 0, lost: 1 };
    const limit = { endCog: { teeth: 51, end: 'past-largest', before, after }, shiftsStillNeeded: 2 } as const;
    const facts = '3 of 10 shifts onto the largest cog went wrong before .*, 1 of 1 since \\(.* once\\)';
    expect(verdict({ ...limit, amount: -0.5 })).toMatch(new RegExp(`^${facts}\\.$`));
    expect(verdict({ ...limit, amount: 0.5, probabilityBetter: 0.3 })).toMatch(
      new RegExp(`^Not decided yet whether it helped: ${facts}; better with a probability of 30 %\\.$`),
    );
    const wrong = { wrongWayFor: 'cable-tension-low', probabilityBetter: 0.3, shiftsStillNeeded: 40 } as const;
    expect(verdict(wrong)).toMatch(
      /a probability of 30 %\. To larger .*\. It was the wrong way for .*: take it back first\.$/,
    );
    expect(verdict({ ...wrong, wrongWayFor: null })).toMatch(
      /About 40 more judged shifts will tell whether that helped\.$/,
    );
  });

  it('has nothing to decide where no shift went wrong before or since', () => {
    const well = { ...made.before, shifts: 146, late: 0, missed: 0, overshot: 0, ghostShifts: 0, troubleRate: 0 };
    const said = (before: Partial<typeof well>, after: Partial<typeof well> = {}): string =>
      verdict({
        ...{ before: { ...well, ...before }, after: { ...well, shifts: 320, ...after } },
        ...{ probabilityBetter: 0.54, shiftsStillNeeded: null },
      });
    expect(said({})).toBe(
      'There was nothing to mend that shifts could show: none of 146 went wrong before, none of 320 since.',
    );
    // few shifts are no bike in order, and a chain that moves by itself is not
    for (const other of [said({ shifts: 9 }), said({ ghostShifts: 3 }), said({}, { late: 1 })])
      expect(other).toMatch(/^Not decided yet/);
    const end = { asked: 29, shifts: 29, trouble: 0, lost: 0 };
    const limit = (before: Partial<typeof end>): string =>
      verdict({
        ...{ amount: 0.25, probabilityBetter: 0.5, shiftsStillNeeded: null },
        endCog: { teeth: 51, end: 'past-largest', before: { ...end, ...before }, after: { ...end, shifts: 12 } },
      });
    expect(limit({})).toBe(
      'There was nothing to mend that shifts could show: none of 29 onto the largest cog went wrong before, none of 12 since.',
    );
    expect(limit({ shifts: 2 })).toMatch(/^Not decided yet/);
    expect(limit({ lost: 1 })).toMatch(/^Not decided yet/);
  });

  it('judges a chain or cassette by the skips, and speaks of shifts only where they show something', () => {
    const said = (
      before: [number, number],
      after: [number, number],
      change: Partial<AdjustmentReport> = {},
    ): string => {
      const count = ([skips, hours]: [number, number]) => ({ skips, hours });
      const skipping = { before: count(before), after: count(after), probabilityFewer: 0.79, hoursStillNeeded: 6 };
      return verdict({ parameter: 'chain', amount: null, unit: 'done', probabilityBetter: 0.53, skipping, ...change });
    };
    expect(said([2, 2.7], [0, 1.3])).toBe(
      'Not decided yet whether that helped against skips: 2 skips seen in 2.7 hours of pedalling before, 0 in 1.3 hours since; fewer with a probability of 79 %. About 6 more hours of pedalling will tell.',
    );
    expect(said([0, 9], [0, 3])).toBe(
      'No skip was seen in 9.0 hours of pedalling before, nor in 3.0 hours since. Most skips leave no mark in a log: if you felt the chain slip, go by that, and measure chain and cogs.',
    );
    expect(said([2, 2.7], [0, 0])).toMatch(
      /^Before it 2 skips were seen in 2\.7 hours .* yet\. About 6 hours of pedalling will tell\.$/,
    );
    expect(said([0, 2.7], [0, 0])).toMatch(/nothing was ridden after it yet\.$/);
    expect(said([0, 0], [1, 3])).toBe('Nothing was pedalled before it, so there are no skips to compare with.');
    expect(said([2, 2.7], [0, 1.3], { probabilityBetter: 0.01 })).toMatch(/will tell\. It made shifting worse: /);
    const decided = (probabilityFewer: number): string =>
      said([2, 2.7], [0, 9], {
        skipping: {
          ...{ before: { skips: 2, hours: 2 }, after: { skips: 0, hours: 9 } },
          probabilityFewer,
          hoursStillNeeded: 0,
        },
      });
    expect(decided(0.97)).toMatch(/^That helped against skips: .* of 97 %\.$/);
    expect(decided(0.02)).toMatch(/^More skips were seen since: /);
  });

  it('says what is missing before or after it', () => {
    const none = { ...made.before, shifts: 0, troubleRate: null };
    expect(verdict({ before: none, shiftsStillNeeded: null })).toBe(
      'Nothing was judged before it, so there is nothing to compare with.',
    );
    expect(verdict({ after: none, shiftsStillNeeded: 1 })).toMatch(
      /nothing was judged after it yet\. About 1 more judged shift will tell whether that helped\./,
    );
    expect(verdict({ probabilityBetter: 0.6, shiftsStillNeeded: null })).toMatch(
      /^Not decided yet.* Not even 600 more judged shifts like those since would tell: rides differ as much by themselves\.$/,
    );
    expect(verdict({ after: none, shiftsStillNeeded: null })).toMatch(/too little trouble before\.$/);
    expect(verdict({ sharedPeriod: true })).toMatch(/cannot be told apart\.$/);
    expect(verdict({ leftOut: { before: 164, after: 3 } })).toMatch(
      / Left out of this because a fault began suddenly: 164 shifts before it began and 3 shifts from then on\.$/,
    );
  });

  it('is said once of adjustments made with no judged shift between', () => {
    const [plus, minus] = [3, -3].map((amount) => ({
      ...made,
      amount,
      group: made.group + 1,
      sharedPeriod: true,
      probabilityBetter: 0.99,
    }));
    const [together, alone, ...more] = adjustmentEntries([plus, minus, made]);
    expect(together).toMatch(/cable tension \+3 clicks .*; .* cable tension -3 clicks .*\. Together they helped: /);
    expect(alone).toMatch(/cable tension \+2 clicks .*\. It helped: /);
    expect(more).toEqual([]);
    const takenBack = [plus, minus].map((one) => ({ ...one, cancelledOut: true, sharedPeriod: false }));
    const beside = { ...made, group: plus.group, parameter: 'pulley-gap', unit: 'turns', probabilityBetter: 0.99 };
    expect(adjustmentEntries([takenBack[0], beside, takenBack[1]])).toEqual([
      expect.stringMatching(
        /\. Turned and taken back with no ride between: there is nothing to judge\. It helped: [^.]*\.$/,
      ),
    ]);
  });

  it('is said of the skips and of the shifts each where a chain was replaced with other work', () => {
    const skipping = {
      before: { skips: 3, hours: 2 },
      after: { skips: 0, hours: 9 },
      probabilityFewer: 0.98,
      hoursStillNeeded: 0,
    };
    const [parts, clicks] = [
      { parameter: 'chain', amount: null, unit: 'done', skipping },
      { parameter: 'cable-tension', amount: 1, unit: 'clicks' },
    ].map((one) => ({ ...made, ...one, sharedPeriod: true, probabilityBetter: 0.99 }));
    const [said] = adjustmentEntries([parts, { ...parts, parameter: 'cassette' }, clicks]);
    expect(said).toMatch(/\. Together they helped: trouble .* That helped against skips: .* cannot be told apart\.$/);
    expect(said.match(/helped/g)).toHaveLength(2);
    expect(said.match(/told apart/g)).toHaveLength(1);
  });
});
