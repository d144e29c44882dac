import { describe, expect, it } from 'vitest';
import { adjustmentWords } from '../../src/adjustments/parameter-words.ts';
import { causeWords } from '../../src/diagnosis/cause-words.ts';
import { causes } from '../../src/diagnosis/causes.ts';
import { counted } from '../../src/numeric/counted.ts';
import { figure } from '../../src/numeric/figure.ts';
import { chance, percent } from '../../src/numeric/percent.ts';
import type { AdjustmentReport } from '../../src/report/adjustment-report-schema.ts';
import { adjustmentEntries } from '../../src/report/words/adjustment-entries.ts';
import { adjustmentVerdict } from '../../src/report/words/adjustment-verdict.ts';
import { bikeWords } from '../../src/report/words/bike-words.ts';
import { lateralSentence } from '../../src/report/words/lateral-sentence.ts';
import { sinceStart, utcDayAndTime } from '../../src/report/words/moment-words.ts';
import { durationWords, rateWithInterval, sure } from '../../src/report/words/number-words.ts';
import { otherCauses } from '../../src/report/words/other-causes.ts';
import { rideNotes } from '../../src/report/words/ride-notes.ts';
import { turnWords } from '../../src/report/words/turn-words.ts';
import { explainedCauses, verdictSentence } from '../../src/report/words/verdict-words.ts';
import { sampleBike, sampleReport } from './sample-report.ts';

describe('numbers in words', () => {
  it('never rounds a share to sureness', () => {
    expect([0, 0.001, 0.126, 0.995, 0.998, 1].map(percent)).toEqual([
      '0 %',
      'under 1 %',
      '13 %',
      'over 99 %',
      'over 99 %',
      '100 %',
    ]);
    expect([0, 0.43, 1].map(chance)).toEqual(['under 1 %', '43 %', 'over 99 %']);
    expect(sure(1)).toBe('over 99 % sure');
  });

  it('says of the indexing only what it alone does to the guide pulley', () => {
    const said = (mean: number, low: number, high: number): string => lateralSentence({ mean, low, high });
    expect(said(-0.12, -0.13, -0.1)).toContain(
      'At the middle of the cassette, whatever the cause may be and friction left out, the guide pulley stands too far outboard: -0.12 mm, between -0.13 mm and -0.10 mm (95 %',
    );
    expect(said(0.3, 0.1, 0.5)).toContain('too far inboard: +0.30 mm');
    expect(said(0.1, -0.2, 0.4)).toContain('not clearly to either side');
    expect(said(0, 0, 0)).toMatch(/^The indexing seems right;/);
    for (const sentence of [said(0, 0, 0), said(0.3, 0.1, 0.5)])
      expect(sentence).toContain('Worked out from how shifts went, not measured.');
  });

  it('writes rates, lengths of time and counts', () => {
    expect(rateWithInterval({ troubleRate: 0.12, low: 0.04, high: 0.29 })).toBe('12 % (4 to 29 %)');
    expect(rateWithInterval({ troubleRate: null, low: 0, high: 1 })).toBe('none judged');
    expect([59, 3599, 11_100].map(durationWords)).toEqual(['1 min', '1 h 00 min', '3 h 05 min']);
    expect([
      counted(1, 'ride'),
      counted(0, 'ride'),
      counted(2, 'ride has', 'rides have'),
      counted(2000, 'shift'),
      figure(1571),
    ]).toEqual(['1 ride', '0 rides', '2 rides have', '2,000 shifts', '1,571']);
  });

  it('tells which comes later, sensors or gear record, and never by less than nothing', () => {
    const [ride] = sampleReport().rides;
    const said = (sensorLagS: number): string => rideNotes({ ...ride, sensorLagS }, 'text').join(' ');
    expect(said(1.24)).toContain('The sensors follow the gear record by 1.2 s.');
    expect(said(-0.3)).toContain('The gear record follows the sensors by 0.3 s.');
    expect(said(-0.04)).toContain('The sensors are in step with the gear record.');
  });

  it('tells where the events left out are listed, by what is read', () => {
    const [ride] = sampleReport().rides;
    const [ghost] = ride.ghostShifts;
    const restless = { ...ride, ghostShifts: Array.from({ length: 20 }, () => ghost) };
    expect(rideNotes(restless, 'text')).toContain('And 8 more ghost shifts; --json lists them all.');
    expect(rideNotes(restless, 'page')).toContain('And 8 more ghost shifts; the report in JSON lists them all.');
  });

  it('tells why a chain is held to be lost, in the text and on the page, where the signs were kept', () => {
    const [ride] = sampleReport().rides;
    for (const medium of ['text', 'page'] as const)
      expect(rideNotes(ride, medium).join(' ')).toContain(
        '(70 % sure). Why: the legs ran 40 % faster than before for 3 s,',
      );
    const [{ signs: _, ...bare }] = ride.chainDrops;
    expect(rideNotes({ ...ride, chainDrops: [bare] }, 'text').join(' ')).not.toContain('Why');
  });

  it('writes moments, and says when a log has no clock', () => {
    expect(utcDayAndTime('2026-04-12T20:30:00+02:00')).toBe('2026-04-12 18:30');
    expect(utcDayAndTime('1970-01-01T00:10:00.000Z')).toBe('no date');
    expect(sinceStart('2026-04-12T18:30:00Z', '2026-04-12T19:32:03.400Z')).toBe('1:02:03');
  });
});

describe('words of the trade', () => {
  it('names every cause, for cable and for electronic actuation', () => {
    const names = causes.map((cause) => causeWords(cause, 'cable').name);
    expect(new Set(names).size).toBe(causes.length);
    expect(causeWords('cable-tension-low', 'electronic').name).toBe('index offset too far outboard');
    for (const cause of causes) expect(causeWords(cause, 'electronic').name).not.toMatch(/cable/);
  });

  it('says which way a screw was turned', () => {
    expect(adjustmentWords({ parameter: 'low-limit', amount: -0.25, unit: 'turns' })).toBe(
      'low limit screw -0.25 turns (anticlockwise, out)',
    );
    expect(adjustmentWords({ parameter: 'cable-tension', amount: 1, unit: 'clicks' })).toBe(
      'cable tension +1 click (anticlockwise, more tension)',
    );
    expect(adjustmentWords({ parameter: 'chain', amount: null, unit: 'done' })).toBe('chain replaced');
  });

  it('describes given and guessed bikes', () => {
    const given = { ...sampleReport(), bike: sampleBike };
    expect(bikeWords(given)).toBe(
      '32 x 11-13-15-18-21-24-28-32-37, cable actuation, rollout 2290 mm; from the bike file',
    );
    const { rolloutMm: _, ...bare } = sampleBike;
    expect(bikeWords({ ...given, bike: { ...bare, tyre: '57-622' }, bikeSource: 'guessed' })).toMatch(
      /rollout 2312 mm \(tyre 57-622\); guessed from the rides$/,
    );
    expect(bikeWords({ ...given, bikeSource: 'guessed', bikeCertainty: 0.487 })).toMatch(
      /; guessed from the rides, right with a likelihood of 49 %$/,
    );
    expect(bikeWords({ ...given, bike: bare })).toContain('rollout measured from the rides');
    expect(bikeWords({ ...given, bike: bare, rides: [] })).toContain('rollout not known');
    const bikeNotes = [{ code: 'bike-unknown', message: 'The drivetrain is not known.' }];
    expect(bikeWords({ ...given, bikeSource: 'guessed', bikeNotes })).toBe('Drivetrain not known');
  });

  it('speaks of a turn only where its interval leaves one side', () => {
    const clicks = { parameter: 'cable-tension', unit: 'clicks', mean: -1.7, low: -2.6, high: -0.4 } as const;
    expect(turnWords(clicks)).toBe(
      'By the shifts seen, and if it is the cable tension, the setting needs about 2 clicks clockwise (less tension), between 1 and 3 (95 %).',
    );
    expect(turnWords({ ...clicks, high: 0.1 })).toBeNull();
  });

  it('gives turns whole, and says where how many is hardly known', () => {
    const offset = { parameter: 'index-offset', unit: 'steps', mean: 24.3, low: 5.9, high: 68.8 } as const;
    expect(turnWords(offset)).toMatch(
      /needs about 24 steps inboard, between 6 and 69 \(95 %\): how many is hardly known\.$/,
    );
    expect(turnWords({ ...offset, low: 14 })).toMatch(/between 14 and 69 \(95 %\)\.$/);
    expect(turnWords({ ...offset, mean: 0.3, low: 0.1, high: 0.6 })).toMatch(/about 1 step inboard, between 1 and 2 /);
  });
});

describe('verdictSentence', () => {
  const report = sampleReport();
  const withProbability = (first: number, second: number, cause = report.diagnosis.causes[0].cause) => ({
    ...report,
    diagnosis: {
      ...report.diagnosis,
      causes: [
        { ...report.diagnosis.causes[0], cause, probability: first },
        { ...report.diagnosis.causes[1], probability: second },
      ],
    },
  });

  it('names the likeliest cause alone, two where it is open, none where nothing is wrong', () => {
    expect(verdictSentence(withProbability(0.8, 0.1))).toMatch(/^Likeliest: cable tension too low \(80 %\)/);
    expect(verdictSentence(withProbability(0.45, 0.4))).toBe(
      'Open between cable tension too low (45 %) and friction in cable and housing (40 %).',
    );
    expect(verdictSentence(withProbability(0.9, 0.05, 'no-fault'))).toBe(
      'Nothing points to a mis-set part (90 % sure).',
    );
  });

  it('says where a sound bike was hardly ridden onto its end cogs', () => {
    const sound = withProbability(0.6, 0.3, 'no-fault');
    const { cassette } = sound.bike;
    const [small, large] = [cassette[0], cassette[cassette.length - 1]];
    const judged = (teeth: number, shifts: number) => ({ ...sound.cogs[0], teeth, shifts });
    const said = (smallest: number, largest: number): string =>
      verdictSentence({ ...sound, cogs: [judged(small, smallest), judged(large, largest)] });
    expect(said(30, 0)).toBe(
      `Nothing points to a mis-set part (60 % sure); no shift onto the ${large} could be judged, so of its limit hardly anything is known.`,
    );
    expect(said(4, 1)).toMatch(
      /; only 1 shift onto the \d+ and only 4 shifts onto the \d+ could be judged, so of their limits/,
    );
    expect(said(5, 5)).toBe('Nothing points to a mis-set part (60 % sure).');
  });

  it('says the same evidence once only, the causes in order of how likely they are', () => {
    const report = withProbability(0.5, 0.4);
    const causes = report.diagnosis.causes.map((one) => ({ ...one, evidence: ['0 of 9 shifts.'] }));
    const alike = { ...report, diagnosis: { ...report.diagnosis, causes } };
    const explained = explainedCauses(alike);
    expect(explained.map(({ evidence }) => evidence)).toEqual([
      ['0 of 9 shifts.'],
      ['No evidence of its own beside what stands above.'],
    ]);
    expect(otherCauses(alike, explained)).toBeNull();
  });

  it('tells a cause with nothing to turn from too thin evidence', () => {
    const likely = withProbability(0.98, 0.01, 'cable-friction');
    const { suggestion } = likely.diagnosis;
    const withStep = (namesCause: boolean): string =>
      verdictSentence({
        ...likely,
        bike: { ...likely.bike, actuation: 'electronic' },
        diagnosis: { ...likely.diagnosis, suggestion: { ...suggestion, namesCause, parameter: 'none' } },
      });
    expect(withStep(true)).toMatch(/^Likeliest: derailleur moves stiffly \(98 %\)/);
    expect(withStep(false)).toMatch(/^No part is named yet: derailleur moves stiffly/);
  });
});

describe('a verdict on rides that hold no gear changes', () => {
  it('says so, and does not count too few shifts', () => {
    const report = sampleReport();
    const said = (gearSource: 'recorded' | 'inferred', rides: number): string => {
      const weighed = { ...report.diagnosis.weighed, rides, judgedShifts: 0, weakShifts: 0, events: 0 };
      return verdictSentence({
        ...report,
        rides: report.rides.map((ride) => ({ ...ride, gearSource })),
        diagnosis: { ...report.diagnosis, weighed },
      });
    };
    expect(said('inferred', 1)).toMatch(/^These rides hold no gear changes, so no shift can be judged;/);
    expect(said('inferred', 0)).toMatch(/^These rides hold no gear changes and show no gears,/);
    expect(said('recorded', 1)).toMatch(/^No shift could be judged/);
  });
});

describe('adjustmentVerdict', () => {
  const [made] = sampleReport().adjustments;
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
    expect(verdict({ probabilityBetter: 0.02 })).toMatch(/^It made shifting worse/);
    expect(verdict({ probabilityBetter: 0.6, shiftsStillNeeded: 40 })).toMatch(
      /^Not decided yet.*About 40 more judged shifts will tell\.$/,
    );
  });

  it('judges a limit screw by its end cog, and sends nobody there before a stand has shown that the chain stays on', () => {
    const before = { asked: 2, shifts: 2, trouble: 1, lost: 1 };
    const said = (asked: number, shifts: number, change: Partial<AdjustmentReport>): string => {
      const after = { asked, shifts, trouble: 0, lost: 0 };
      return verdict({ endCog: { teeth: 51, end: 'past-largest', before, after }, ...change });
    };
    expect(said(38, 38, { probabilityBetter: 0.96, shiftsStillNeeded: 0 })).toBe(
      'It helped: 1 of 2 shifts onto the largest cog went wrong before (the chain was lost past it 1 time), 0 of 38 since; better with a probability of 96 %.',
    );
    const more =
      /About 30 more judged shifts onto the largest cog, once the chain has stayed on there on a stand, will tell\.$/;
    expect(said(1, 1, { probabilityBetter: 0.57, shiftsStillNeeded: 30 })).toMatch(/^Not decided yet .*, 0 of 1 since/);
    expect(said(1, 1, { probabilityBetter: 0.57, shiftsStillNeeded: 30 })).toMatch(more);
    expect(said(0, 0, { shiftsStillNeeded: 30 })).toMatch(/, and it was not asked for since\. About 30/);
    expect(said(2, 0, { shiftsStillNeeded: 30 })).toMatch(/asked for 2 times since, but none of that could be judged/);
  });

  it('waits for no more shifts onto a cog past which the chain was lost since, nor for what is taken back first', () => {
    const before = { asked: 10, shifts: 10, trouble: 3, lost: 3 };
    const after = { asked: 1, shifts: 1, trouble: 0, lost: 1 };
    const limit = { endCog: { teeth: 51, end: 'past-largest', before, after }, shiftsStillNeeded: 2 } as const;
    const facts = '3 of 10 shifts onto the largest cog went wrong before .*, 1 of 1 since \\(.* 1 time\\)';
    expect(verdict({ ...limit, amount: -0.5 })).toMatch(new RegExp(`^${facts}\\.$`));
    expect(verdict({ ...limit, amount: 0.5, probabilityBetter: 0.3 })).toMatch(
      new RegExp(`^Not decided yet whether it helped: ${facts}; better with a probability of 30 %\\.$`),
    );
    const wrong = { wrongWayFor: 'cable-tension-low', probabilityBetter: 0.3, shiftsStillNeeded: 40 } as const;
    expect(verdict(wrong)).toMatch(/a probability of 30 %\. It was the wrong way for .*: take it back first\.$/);
    expect(verdict({ ...wrong, wrongWayFor: null })).toMatch(/About 40 more judged shifts will tell\.$/);
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
      /nothing was judged after it yet\. About 1 more judged shift will tell\./,
    );
    expect(verdict({ probabilityBetter: 0.6, shiftsStillNeeded: null })).toMatch(
      /^Not decided yet.* Not even 600 more judged shifts like those since would tell: the difference is too small\.$/,
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
