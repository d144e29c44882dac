import { describe, expect, it } from 'vitest';
import { percent } from '../../src/numeric/percent.ts';
import { AFTER_COMMAND_S } from '../../src/shifts/drops/drop-side.ts';
import type { BikeSummary, KeyedRideReport, Merged } from '../../web/api/answers.ts';
import { fleetSentence } from '../../web/bikes/fleet-sentence.ts';
import { mergedSentences } from '../../web/data/data-view.ts';
import { cautionsHeading } from '../../web/page/cautions.ts';
import { eventTitle } from '../../web/ride/event-words.ts';
import { rideEvents } from '../../web/ride/ride-event.ts';
import { rideSentence } from '../../web/ride/ride-sentence.ts';
import { whyJudged } from '../../web/ride/why-judged.ts';
import { rideClock } from '../../web/words/dates.ts';
import { fileStem } from '../../web/words/file-stem.ts';
import { chanceFigure, duration, percentFigure, percentRange } from '../../web/words/numbers.ts';
import { saidOfFile } from '../../web/words/said-of-file.ts';
import { staleFigures } from '../../web/words/stale-words.ts';
import { stateLabel } from '../../web/words/state-words.ts';

const fleet = (...words: BikeSummary['state']['word'][]): BikeSummary[] =>
  words.map((word) => ({ state: { word, dangers: [] } as object, workshopMark: null })) as BikeSummary[];
const none = {
  shifts: 0,
  clean: 0,
  late: 0,
  missed: 0,
  overshot: 0,
  unjudged: 0,
  ghostShifts: 0,
  chainDrops: 0,
  skips: 0,
};

describe('numbers', () => {
  it('never rounds a share to sureness', () => {
    expect([0, 0.004, 0.126, 0.996, 1].map(percentFigure)).toEqual([
      '0\u00a0%',
      '<\u00a01\u00a0%',
      '13\u00a0%',
      '>\u00a099\u00a0%',
      '100\u00a0%',
    ]);
    expect([0, 0.5, 1].map(chanceFigure)).toEqual(['<\u00a01\u00a0%', '50\u00a0%', '>\u00a099\u00a0%']);
    for (const share of [0.004, 0.006, 0.0099, 0.5, 0.992, 0.996])
      expect(percentFigure(share).replace('<', 'under').replace('>', 'over').replaceAll('\u00a0', ' ')).toBe(
        percent(share),
      );
    expect(percentRange(0.004, 0.013)).toBe('0.4 to 1.3\u00a0%');
    expect(percentRange(0.15, 0.244)).toBe('15 to 24\u00a0%');
  });

  it('writes times as people do', () => {
    expect([45, 2820, 7500].map(duration)).toEqual(['45 s', '47 min', '2 h 05 min']);
    expect([69, 3849].map(rideClock)).toEqual(['1:09', '1:04:09']);
    expect(fileStem('Guide’s own bike', 'trend')).toBe('guide-s-own-bike-trend');
  });
});

describe('fleetSentence', () => {
  it('says how many need service, else what is to be watched', () => {
    expect(fleetSentence(fleet('service', 'fine', 'fine'))).toBe('1 of 3 bikes needs service');
    expect(fleetSentence(fleet('service'))).toBe('Your bike needs service');
    expect(fleetSentence(fleet('watch', 'fine'))).toBe('No bike needs service; keep an eye on 1');
    expect(fleetSentence(fleet('fine', 'fine'))).toBe('All 2 bikes shift well');
    expect(fleetSentence(fleet('too little data'))).toBe('Too little ridden yet to say');
    const [one, two] = fleet('too little data', 'too little data');
    const underWay = { ...one, state: { ...one.state, underWay: true } };
    expect(fleetSentence([underWay])).toBe('The rides are still being worked through');
    expect(fleetSentence([underWay, two])).toBe('Too little ridden yet to say; 1 still being worked through');
    expect(fleetSentence([...fleet('service', 'fine'), underWay])).toBe(
      '1 of 3 bikes needs service; 1 still being worked through',
    );
    const aside = (bike: BikeSummary): BikeSummary => ({ ...bike, workshopMark: { on: null, note: '' } });
    const [needy, well] = fleet('service', 'fine');
    expect(fleetSentence([needy, aside(well)])).toBe('1 of 2 bikes needs service; 1 set aside for the workshop');
    expect(fleetSentence([aside(well)])).toBe('Your bike shifts well; it is set aside for the workshop');
    expect(stateLabel(underWay.state)).toBe('No verdict yet');
    expect(stateLabel(two.state)).toBe('Too little data');
  });

  it('says first how many are to be looked over before the next ride, and counts each once', () => {
    const toLookOver = (...words: BikeSummary['state']['word'][]): BikeSummary[] =>
      fleet(...words).map(({ state, ...rest }) => ({
        ...rest,
        state: { ...state, dangers: ['It came off.'] },
      })) as BikeSummary[];
    const watched = toLookOver('watch');
    expect(fleetSentence([...watched, ...toLookOver('service'), ...fleet('service', 'fine')])).toBe(
      'Look 2 of 4 bikes over before the next ride; 1 more needs service',
    );
    expect(fleetSentence([...watched, ...fleet('watch', 'fine')])).toBe('Look 1 of 3 bikes over before the next ride');
    expect(fleetSentence(watched)).toBe('Look your bike over before the next ride');
    expect(fleetSentence(toLookOver('service', 'service'))).toBe('Look all 2 bikes over before the next ride');
    expect(stateLabel(watched[0].state)).toBe('Look it over first');
  });
});

describe('rideSentence', () => {
  it('names the trouble and what nobody asked for', () => {
    expect(rideSentence({ ...none, shifts: 12, clean: 8, late: 1, missed: 1, unjudged: 2, ghostShifts: 2 })).toBe(
      'Of 10 judged shifts, 1 late and 1 missed; the rest clean. 2 ghost shifts.',
    );
    expect(rideSentence({ ...none, shifts: 3, clean: 3 })).toBe('Of 3 judged shifts, all clean.');
    expect(rideSentence({ ...none, shifts: 3, clean: 1, late: 2 }, 1)).toContain(
      'the rest clean. 1 of the 2 is unclear.',
    );
    expect(rideSentence({ ...none, shifts: 3, clean: 2, late: 1 }, 1)).toContain('That one is unclear.');
    expect(rideSentence(none)).toBe('No shift was recorded in this ride.');
  });
});

describe('mergedSentences', () => {
  const kind = { added: 0, known: 0 };
  const merged: Merged = {
    bikes: { added: 0, merged: 0 },
    rides: { ...kind, refused: [] },
    adjustments: kind,
    judgements: kind,
  };

  it('count every kind that came in, and what was known', () => {
    expect(
      mergedSentences({
        bikes: { added: 1, merged: 0 },
        rides: { added: 12, known: 1, refused: [] },
        adjustments: { added: 2, known: 0 },
        judgements: { added: 1, known: 0 },
      }),
    ).toEqual(['Added: 1 bike, 12 rides, 2 adjustments and 1 judgement.', '1 ride was here already.']);
    expect(mergedSentences({ ...merged, bikes: { added: 0, merged: 2 } })).toEqual([
      'Nothing new was in it.',
      '2 bikes were here already.',
    ]);
    expect(mergedSentences(merged)).toEqual(['Nothing new was in it.']);
  });
});

describe('the heading of the cautions', () => {
  it('holds for everyone who rides on where a chain came off, else for who turns something', () => {
    const heading = (namesCause: boolean, inspectFirst: boolean) => cautionsHeading({ namesCause, inspectFirst });
    expect(heading(true, false)).toBe('Before you touch it');
    expect(heading(false, false)).toBe('Should you touch it all the same');
    expect(heading(true, true)).toBe('Before you ride on or touch it');
    expect(heading(false, true)).toBe('Before you ride on');
  });
});

describe('whyJudged', () => {
  const at = '2026-05-03T07:31:00.000Z';
  const common = { at, confidence: 0.87, eventKey: 'k', verdict: null, found: null };
  const report = {
    start: '2026-05-03T07:30:00.000Z',
    shifts: [
      {
        ...common,
        fromTeeth: 21,
        toTeeth: 24,
        direction: 'to-larger',
        outcome: 'late',
        crankRevs: 3.24,
        weak: true,
        torqueNm: 41.6,
      },
    ],
    gears: [],
    ghostShifts: [{ ...common, at: '2026-05-03T07:30:30.000Z', fromTeeth: 24, toTeeth: 21, heldS: 6 }],
    chainDrops: [{ ...common, at: '2026-05-03T07:32:00.000Z', side: 'unknown', afterShiftTo: null }],
    skips: [],
    rejected: { ghostShifts: [], chainDrops: [], skips: [] },
  } as unknown as KeyedRideReport;

  const full = { sensorLagS: null, evidence: 'full' } as const;

  it('gives the numbers that decided, and says so where the evidence is weak', () => {
    const [ghost, late] = rideEvents(report);
    expect(ghost.timeS).toBe(30);
    expect(whyJudged(ghost, full)[0]).toContain('from the 24 to the 21 by itself');
    expect(late.timeS).toBe(60);
    const words = whyJudged(late, full).join(' ');
    expect(words).toContain('only after 3.2 crank turns');
    expect(words).toContain('42 Nm');
    expect(words).toContain('weak evidence');
    expect(words).toContain('87');
  });

  const one = (change: object, rest: object = {}) =>
    rideEvents({
      ...report,
      ...rest,
      shifts: [{ ...report.shifts[0], ...change }],
      ghostShifts: [],
      chainDrops: [],
    } as never)[0];

  it('calls a shift unclear that is less than half sure, and says how else it may have gone', () => {
    const chances = { clean: 0.4, late: 0.34, missed: 0.26, overshot: 0 };
    const unclear = one({ confidence: 0.34, outcomeChances: chances });
    expect(eventTitle(unclear)).toBe('Unclear, may well be clean, counted as late: 21 to 24 teeth');
    expect(whyJudged(unclear, full)).toContain(
      'If it was late: the chain was on the 24 only after 3.2 crank turns. Over 1.5 is late.',
    );
    expect(whyJudged(unclear, full).join(' ')).toContain(
      'Unclear: 34 % late, 40 % clean, 26 % missed. Clean is the likeliest of these by itself, but that something went wrong is likelier than not',
    );
    const kindOpen = one({ confidence: 0.45, outcomeChances: { clean: 0.15, late: 0.45, missed: 0.4, overshot: 0 } });
    expect(eventTitle(kindOpen)).toBe('Unclear which trouble, counted as late: 21 to 24 teeth');
    expect(whyJudged(kindOpen, full).at(-1)).toContain('15 % clean. That something went wrong');
    expect(eventTitle(one({ confidence: 0.45 }))).toBe('Unclear, counted as late: 21 to 24 teeth');
    const sure = one({ confidence: 0.6, outcomeChances: { ...chances, late: 0.6, clean: 0.14 } });
    expect(eventTitle(sure)).toBe('Late: 21 to 24 teeth');
    expect(whyJudged(sure, full).at(-1)).toBe('How sure: 60 %.');
    expect(whyJudged(one({ confidence: 0.34 }), full).at(-1)).toBe('How sure: 34 %.');
  });

  it('says where the drawn line does not show what was judged', () => {
    const on = (teeth: number) => ({ gears: [{ at: '2026-05-03T07:30:00.000Z', teeth }] });
    expect(whyJudged(one({}, on(21)), full).join(' ')).toContain('does not show the 24');
    expect(whyJudged(one({}, on(24)), full).join(' ')).not.toContain('does not show');
    expect(whyJudged(one({}), full).join(' ')).not.toContain('does not show');
  });

  it('does not explain a missed shift against its own picture', () => {
    const second = (s: number) => new Date(Date.parse(at) + s * 1000).toISOString();
    const missed = {
      ...{
        outcome: 'missed',
        crankRevs: null,
        confidence: 0.52,
        turns: { cleanUntilS: 3, lateUntilS: 13.6, doneS: null },
      },
      outcomeChances: { clean: 0.1, late: 0.38, missed: 0.52, overshot: 0 },
    };
    const from = (s: number) => ({
      gears: [
        { at: second(-30), teeth: 21 },
        { at: second(s), teeth: 24 },
      ],
    });
    const words = whyJudged(one(missed, from(6)), full);
    expect(words).toContain('If it was missed: the chain was not on the 24 within 5 crank turns.');
    expect(words.join(' ')).toContain('shows it on the 24 from 6 s after the command');
    expect(words.at(-1)).toBe('How sure: 52 % missed, 38 % late, 10 % clean.');
    // there only after the turns were up: as a missed shift is
    const after = whyJudged(one(missed, from(14)), full);
    expect(after).toContain('The chain was not on the 24 within 5 crank turns.');
    expect(after.at(-1)).toBe('How sure: 52 %.');
  });

  it('says by which rule a shift was missed, and where the chain lay when it had not yet come to where it began', () => {
    const second = (s: number) => new Date(Date.parse(at) + s * 1000).toISOString();
    const [shift] = report.shifts;
    const asked = (s: number, fromTeeth: number, toTeeth: number, change: object) => ({
      ...shift,
      at: second(s),
      fromTeeth,
      toTeeth,
      outcome: 'missed',
      crankRevs: null,
      turns: { cleanUntilS: 1, lateUntilS: 6, doneS: null },
      ...change,
    });
    const shifts = [
      asked(0, 21, 16, { outcome: 'unjudged', unjudgedBecause: 'no-pedalling' }),
      asked(2, 16, 14, {}),
      asked(5, 14, 16, {}),
    ];
    const gears = [{ at: second(-30), teeth: 21 }];
    const events = rideEvents({ ...report, shifts, gears, ghostShifts: [], chainDrops: [] } as never);
    expect(eventTitle(events[1])).toBe('Missed: 16 to 14 teeth, chain on the 21');
    const words = whyJudged(events[1], full).join(' ');
    expect(words).toContain(
      'still lay on the 21 then: the 16 had been asked for before that, with hardly any pedalling',
    );
    expect(words).toContain('The next shift came 3 s later, before 5 crank turns were up');
    expect(whyJudged(events[2], full).join(' ')).toContain('The chain was not on the 16 within 5 crank turns.');
    const clean = shifts.map((one) => ({ ...one, outcome: 'clean' }));
    const well = rideEvents({ ...report, shifts: clean, gears, ghostShifts: [], chainDrops: [] } as never);
    expect(eventTitle(well[1])).toBe('Clean: 16 to 14 teeth');
    const came = rideEvents({
      ...report,
      shifts,
      gears: [...gears, { at: second(1), teeth: 16 }],
      ghostShifts: [],
      chainDrops: [],
    } as never);
    expect(eventTitle(came[1])).toBe('Missed: 16 to 14 teeth');
  });

  it('says why a shift was not judged', () => {
    const [shift] = report.shifts;
    const because = (reason: (typeof shift)['unjudgedBecause']): string => {
      const unjudged = { ...shift, outcome: 'unjudged', unjudgedBecause: reason } as const;
      return whyJudged(rideEvents({ ...report, shifts: [unjudged], ghostShifts: [], chainDrops: [] })[0], full)[1];
    };
    expect(because('no-pedalling')).toMatch(/2 s of pedalling.*not judged/);
    expect(because('no-cadence')).toMatch(/no cadence.*not judged/);
    expect(because('no-drive-seen')).toMatch(/^Speed and cadence.*not judged/);
    expect(because('astray')).toMatch(/sensors.*not judged/);
    expect(because('two-cogs-one-count')).toMatch(/two cogs by one tooth count.*not judged/);
    expect(because('rejected')).toMatch(/You said.*not judged/);
    expect(because(null)).toMatch(/not judged/);
  });

  it('says how long before a lost chain the engine looked for a shift', () => {
    const drop = rideEvents(report).find(({ kind }) => kind === 'drop')!;
    for (const evidence of ['full', 'commands-only'] as const)
      expect(whyJudged(drop, { ...full, evidence })).toContain(`No shift came in the ${AFTER_COMMAND_S} s before.`);
  });

  it('says why a chain is held to be lost and how far the legs leapt at a skip, where that was kept', () => {
    const signs = [{ sign: 'power-gone', value: 12, unit: 'W', logOdds: 5 }];
    const [drop] = report.chainDrops;
    const [was, skip] = [
      { ...common, teeth: 15 },
      { ...common, teeth: 15, leapPercent: 17.8 },
    ];
    const told = { ...report, shifts: [], ghostShifts: [], chainDrops: [{ ...drop, signs }], skips: [skip] };
    const words = (of: object) => rideEvents(of as KeyedRideReport).flatMap((event) => whyJudged(event, full));
    expect(words(told)).toContain('Why: power fell to 12 W.');
    expect(words(told)).toContain('The legs leapt 18 % ahead of the wheel.');
    expect(words({ ...told, chainDrops: [drop], skips: [was] }).join(' ')).not.toMatch(/Why|leapt/);
  });

  it('does not say of a log without gear records that no shift came before a lost chain', () => {
    const drop = rideEvents(report).find(({ kind }) => kind === 'drop')!;
    const words = whyJudged(drop, { ...full, evidence: 'ratio-only' });
    expect(words).toContain('The log does not tell whether a shift came before.');
    expect(words.join(' ')).not.toMatch(/No shift came/);
  });
});

describe('saidOfFile', () => {
  it('leaves out a name that stands beside it, and no other', () => {
    expect(saidOfFile('a.fit', 'a.fit: is text. Export it again.')).toBe('is text. Export it again.');
    expect(saidOfFile('b.fit', 'a.fit: is text.')).toBe('a.fit: is text.');
    expect(saidOfFile('a.fit', 'It is already here.')).toBe('It is already here.');
  });
});

it('speaks of figures from before only where there are any', () => {
  const stale = (faultProbability: number | null): string | null =>
    staleFigures({ staleReason: 'One ride waits.', state: { faultProbability } as BikeSummary['state'] });
  expect(stale(null)).toBe('One ride waits.');
  expect(stale(0.4)).toBe('One ride waits. The figures here are those from before.');
});
