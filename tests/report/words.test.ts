import { describe, expect, it } from 'vitest';
import { adjustmentWords } from '../../src/adjustments/parameter-words.ts';
import { causeWords } from '../../src/diagnosis/cause-words.ts';
import { causes } from '../../src/diagnosis/causes.ts';
import { counted } from '../../src/numeric/counted.ts';
import { figure } from '../../src/numeric/figure.ts';
import { chance, percent } from '../../src/numeric/percent.ts';
import { bikeWords } from '../../src/report/words/bike-words.ts';
import { explainedCauses } from '../../src/report/words/explained-causes.ts';
import { lateralSentence } from '../../src/report/words/lateral-sentence.ts';
import { durationWords, rateWithInterval, sure } from '../../src/report/words/number-words.ts';
import { otherCauses } from '../../src/report/words/other-causes.ts';
import { rideNotes } from '../../src/report/words/ride-notes.ts';
import { sinceStart, utcDayAndTime } from '../../src/report/words/ride-time-words.ts';
import { turnWords } from '../../src/report/words/turn-words.ts';
import { soundSentence, verdictSentence } from '../../src/report/words/verdict-words.ts';
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

  it('says of a chain that the rider told of that it was told, not how sure it is', () => {
    const [ride] = sampleReport().rides;
    const at = ride.start;
    const chainDrops = [
      { at, side: 'past-largest', afterShiftTo: null, confidence: 1, toldByRider: true } as const,
      { at, side: 'past-largest', afterShiftTo: null, confidence: 0.81 } as const,
    ];
    const notes = rideNotes({ ...ride, chainDrops }, 'text');
    const said = 'Chain dropped 0:00:00 into the ride, past the largest cog, towards the spokes';
    expect(notes).toContain(`${said} (told by the rider).`);
    expect(notes).toContain(`${said} (81 % sure).`);
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
    expect(bikeWords({ ...given, bike: bare })).toMatch(
      /rollout \d{4} mm \(measured with these teeth from (one ride|\d+ rides)\)/,
    );
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
    // below a headline that says that nothing does
    expect(soundSentence({ ...sound, cogs: [judged(small, 5), judged(large, 5)] })).toBe('60 % sure.');
    expect(soundSentence({ ...sound, cogs: [judged(small, 5), judged(large, 0)] })).toMatch(
      /^60 % sure; no shift onto/,
    );
  });

  it('says the same evidence once only, the causes in order of how likely they are', () => {
    const report = withProbability(0.5, 0.4);
    const causes = report.diagnosis.causes.map((one) => ({ ...one, evidence: ['0 of 9 shifts.'] }));
    const alike = { ...report, diagnosis: { ...report.diagnosis, causes } };
    const explained = explainedCauses(alike);
    expect(explained.map(({ evidence }) => evidence)).toEqual([['0 of 9 shifts.']]);
    expect(otherCauses(alike, explained)).toMatch(/^Also weighed: .* \(40 %\)/);
  });

  it('names in one what is not worth a word', () => {
    const report = withProbability(0.9, 0.08);
    const rest = (...probabilities: number[]) => {
      const [first] = report.diagnosis.causes;
      const others = causes.filter((cause) => cause !== first.cause).slice(0, probabilities.length);
      const named = [first, ...others.map((cause, i) => ({ cause, probability: probabilities[i], evidence: [] }))];
      return otherCauses({ ...report, diagnosis: { ...report.diagnosis, causes: named } }, named.slice(0, 1));
    };
    expect(rest(0.07, 0.04, 0.001, 0)).toMatch(/^Also weighed: [^(]* \(7 %\), all others under 5 %\.$/);
    expect(rest(0.04, 0.001)).toBe('Also weighed: all others under 5 %.');
    expect(rest(0.07, 0.004)).toMatch(/^Also weighed: [^(]* \(7 %\), [^(]* \(under 1 %\)\.$/);
  });

  it('says first that nothing at all went wrong, where no fault stands out', () => {
    const report = withProbability(0.4, 0.24, 'no-fault');
    const cogs = (late: number) => report.cogs.map((cog) => ({ ...cog, late, missed: 0, overshot: 0 }));
    const weighed = { ...report.diagnosis.weighed, judgedShifts: 271, events: 0 };
    const said = (late: number, events = 0): string =>
      verdictSentence({
        ...report,
        cogs: cogs(late),
        diagnosis: { ...report.diagnosis, undecided: null, unexplained: null, weighed: { ...weighed, events } },
      });
    expect(said(0)).toMatch(
      /^Nothing went wrong in 271 judged shifts, and no fault stands out: nothing mis-set \(40 %\)/,
    );
    expect(said(1)).toMatch(/^No fault stands out: /);
    expect(said(0, 1)).toMatch(/^No fault stands out: /);
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
    expect(said('inferred', 1)).toMatch(/^No gear changes were recorded, so no shift can be judged;/);
    expect(said('inferred', 0)).toMatch(/^No gear changes were recorded and no gears show,/);
    expect(said('recorded', 1)).toMatch(/^No shift could be judged/);
  });
});
