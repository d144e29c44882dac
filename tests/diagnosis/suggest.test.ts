import { describe, expect, it } from 'vitest';
import type { Cause } from '../../src/diagnosis/causes.ts';
import { type NextStep, nextStep } from '../../src/diagnosis/next-step/next-steps.ts';
import { suggest } from '../../src/diagnosis/next-step/suggest.ts';
import type { SuggestionFacts } from '../../src/diagnosis/next-step/suggestion-facts.ts';
import { count, facts, now, seen } from './made-facts.ts';

describe('suggest', () => {
  it('leaves a bike alone on which hardly any shift goes wrong, whatever the timing hints at', () => {
    expect(suggest(facts())).toMatchObject({
      parameter: 'none',
      action: 'Turn nothing yet: only 3 of 600 judged shifts went wrong.',
    });
    for (const change of [{ all: count(600, 30) }, { all: count(60, 0) }, { events: 1 }])
      expect(suggest(facts({ seen: seen(change) })).parameter).toBe('pulley-gap');
  });

  const lost = (side: string) => ({
    seen: seen({ all: count(600, 40) }),
    drops: (asked: string) => (asked === side ? 2 : 0),
  });

  it('asks for a look at frame and spokes after every chain lost there, whatever the step is', () => {
    const cautions = (side: string): string => suggest(facts(lost(side))).cautions.join(' ');
    expect(cautions('past-largest')).toMatch(/went into the spokes: stop, look for damage/);
    expect(cautions('past-smallest')).toMatch(/went into the frame: stop, look for damage/);
    const both = suggest(facts({ ...lost('past-largest'), drops: (asked) => (asked.startsWith('past-') ? 2 : 0) }));
    const looks = both.cautions.filter((caution) => caution.includes('stop, look for damage'));
    expect(looks).toEqual([
      expect.stringMatching(/into the spokes or the frame: .* spokes, derailleur, frame and chain/),
    ]);
    for (const side of ['chainring', 'unknown']) {
      expect(cautions(side)).not.toMatch(/spokes: stop|frame: stop/);
      expect(cautions(side)).toMatch(/came off: before riding on look over chain, chainring, chain guide/);
    }
  });

  const sound = (probability: number, changes: Partial<SuggestionFacts> = {}) =>
    suggest(facts({ ranked: [{ cause: 'no-fault', probability }], ...changes }));

  it('leaves a bike in order alone, and asks for the check ride where that is open', () => {
    expect(sound(0.9).action).toBe('Leave everything as it is.');
    const undecided = { between: ['no-fault', 'pulley-gap-small'] as const, becauseOf: ['x'], sentence: 'Undecided.' };
    const checkRide = {
      blocks: [],
      sentences: ['Six times from the 13 to the 15.'],
      expectedBits: 1,
      ordinaryBits: 0.5,
    };
    const clicks = { ...undecided, between: ['no-fault', 'cable-tension-low'] as const };
    const near = [
      { cause: 'no-fault', probability: 0.35 },
      { cause: 'cable-tension-low', probability: 0.2 },
    ] as const;
    for (const open of [sound(0.33, { ranked: near, checkRide }), sound(0.7, { undecided: clicks, checkRide })]) {
      expect(open.action).toMatch(/^Turn nothing yet: it is not decided .* Ride the check ride first\.$/);
      expect(open.start).toBe('Six times from the 13 to the 15.');
    }
    // a look takes minutes, so it comes before any ride
    const looked = sound(0.7, { undecided, checkRide });
    expect(looked.steps[0]).toMatch(/^Turn nothing yet: it is not decided .* Look first, which takes minutes\.$/);
    expect(looked.start).toMatch(/^On the second largest cog, .* measure the gap\.$/);
    expect(looked.steps[1]).toMatch(/where it leaves it open, ride the check ride\.$/);
    expect(looked.cautions.join(' ')).toMatch(/at sag/);
  });

  it('asks for a look where no ride would tell, or none is to be ridden, with the cautions of what is looked for', () => {
    const undecided = { between: ['no-fault', 'hanger-bent'] as const, becauseOf: ['x'], sentence: 'Undecided.' };
    const look = sound(0.7, { undecided });
    expect(look.action).toMatch(/^Turn nothing yet: it is not decided .* A look tells more than a ride made for it\.$/);
    expect([look.start, look.parameter]).toEqual(['A hanger gauge tells within a minute.', 'none']);
    expect(look.cautions.join(' ')).toMatch(/keep off the largest cog until it is checked/);
    expect(`${look.action} ${look.verify}`).not.toMatch(/check ride/);
  });

  it('does not say to turn nothing where it says to try some clicks', () => {
    const undecided = {
      between: ['no-fault', 'cable-tension-high'] as const,
      becauseOf: ['x'],
      sentence: 'Undecided.',
    };
    const tried = sound(0.7, { undecided });
    expect(tried.action).toMatch(/^Try it on a stand: it is not decided .*, and a few clicks tell more than a ride/);
    expect(tried.start).toMatch(/some clicks clockwise at the barrel, .* Where they do not, put them back;/);
    expect(`${tried.action} ${tried.start}`).not.toMatch(/turn nothing/i);
  });

  it('has a chain that came off looked into on a bike that is in order otherwise', () => {
    for (const side of ['chainring', 'unknown', 'past-largest', 'past-smallest'])
      expect(sound(0.9, lost(side)).action).toMatch(/^Look over where the chain came off before riding on/);
  });

  it('warns to keep off an end past which the chain was lost, whatever the step is, and once', () => {
    const keepOff = now({ keepOff: new Set(['past-largest'] as const) });
    const warnings = (changes: Partial<SuggestionFacts>): number => {
      const { start, cautions } = suggest(facts({ now: keepOff, ...changes }));
      return `${start} ${cautions.join(' ')}`.match(/keep off the largest cog/gi)?.length ?? 0;
    };
    expect(suggest(facts()).cautions.join(' ')).not.toMatch(/keep off/i);
    expect(warnings({})).toBe(1);
    expect(warnings({ ranked: [{ cause: 'no-fault', probability: 0.9 }] })).toBe(1);
    const loose = { ranked: [{ cause: 'low-limit-loose' as const, probability: 0.9 }] };
    expect(warnings({ ...loose, seen: seen({ all: count(600, 40) }) })).toBe(1);
  });

  it('says by itself whether a chain came off, whatever the step is', () => {
    for (const step of [
      facts(),
      facts({ seen: seen({ all: count(600, 40) }) }),
      facts({ seen: seen({ all: count(5, 0) }) }),
    ])
      for (const side of ['chainring', 'unknown', 'past-largest', 'past-smallest']) {
        expect(suggest(step).inspectFirst).toBe(false);
        expect(suggest({ ...step, drops: lost(side).drops }).inspectFirst).toBe(true);
      }
  });

  it('says so where the step itself brings the caution, and only where a chain came off', () => {
    const ranked = [{ cause: 'low-limit-loose' as const, probability: 0.9 }];
    const loose = facts({ ranked, seen: seen({ all: count(600, 40) }) });
    expect(suggest(loose).cautions.join(' ')).toMatch(/spokes: stop/);
    expect(suggest(loose).inspectFirst).toBe(false);
    expect(suggest({ ...loose, drops: lost('past-largest').drops }).inspectFirst).toBe(true);
  });

  it('asks to ride first where the last adjustment has not been ridden on', () => {
    const last = { at: '2026-05-07T12:00:00Z', parameter: 'pulley-gap' } as const;
    const since = { last, seen: seen({ all: count(0, 0) }), lost: () => 0 };
    const untested = now({ setting: 'untested', since });
    const { parameter, action, cautions } = suggest(facts({ seen: seen({ all: count(600, 40) }), now: untested }));
    expect(parameter).toBe('pulley-gap');
    expect(action).toBe(
      'Ride before anything more is turned: no shift was judged yet after what was done on 2026-05-07: pulley gap (B-screw).',
    );
    expect(cautions.join(' ')).toMatch(/at sag/);
  });

  it('proves a loose limit by a chain that stays on, not by late shifts', () => {
    const loose = facts({
      ranked: [{ cause: 'low-limit-loose', probability: 0.9 }],
      seen: seen({ all: count(600, 40), drops: (side) => (side === 'past-largest' ? 4 : 0) }),
    });
    expect(suggest(loose).verify).toMatch(/at least \d+ shifts from the 30 onto the 34 .* a chain that stays on\.$/);
  });

  it('names both of two open causes and why it begins where it does, and lets parts be replaced last', () => {
    const either = (between: [Cause, Cause]) => {
      const undecided = { between, becauseOf: ['x'], sentence: 'Undecided.' };
      const ranked = [{ cause: between[0], probability: 0.68 }];
      return suggest(facts({ seen: seen({ all: count(600, 40) }), ranked, undecided }));
    };
    const cable = either(['cable-tension-high', 'cable-friction']);
    expect(cable.parameter).toBe('cable-tension');
    expect(cable.steps[0]).toBe(
      'See whether it is friction in cable and housing: less likely, but earlier in the order of work and soon ruled out.',
    );
    // it starts with its first step; how the second starts is said there
    expect(cable.start).toMatch(/pull the bare cable by hand/);
    expect(cable.start).not.toMatch(/click/);
    expect(cable.steps.at(-1)).toMatch(
      /^If that is not it: look over .*clockwise, one click at a time\. .*one click clockwise .* Replace nothing before both were looked for: too high a cable tension and friction in cable and housing\.$/,
    );
    expect(cable.cautions.join(' ')).toMatch(
      /A frayed cable is replaced at once.* where it is fully in, do not force it/,
    );
    const turned = either(['cable-tension-low', 'pulley-gap-small']);
    expect(turned.parameter).toBe('cable-tension');
    expect(turned.start).toMatch(/one click anticlockwise/);
    expect(turned.steps[0]).toMatch(/turn the barrel adjuster anticlockwise, one click at a time\.$/);
    expect(turned.steps.at(-1)).toMatch(
      /^If that is not it, see whether it is a guide pulley too close to the cogs\. .* measure the gap\.$/,
    );
    expect(turned.action).not.toMatch(/Replace nothing/);
  });

  it('comes as steps in order, none of which is said twice', () => {
    const lostPast = now({ keepOff: new Set(['past-largest']) });
    const between = ['hanger-bent', 'low-limit-loose'] as const;
    const { steps, action } = suggest(
      facts({
        seen: seen({ all: count(600, 40) }),
        ranked: [{ cause: 'hanger-bent', probability: 0.51 }],
        undecided: { between, becauseOf: ['x'], sentence: 'Undecided.' },
        now: lostPast,
      }),
    );
    expect(steps).toHaveLength(2);
    expect(steps.join(' ')).toBe(action);
    expect(action.match(/Pushed by hand/g)).toHaveLength(1);
    expect(action).toMatch(/looked for: a bent derailleur hanger and a low limit screw too far out\./);
  });

  it('names the cure where what is missing stands in rides without a date', () => {
    const few = { ranked: [{ cause: 'no-fault' as const, probability: 0.5 }], seen: seen({ all: count(0, 0) }) };
    const { action, start } = suggest(facts({ ...few, undatedShifts: 264 }));
    expect(action).toMatch(/too few judged shifts \(0\) .*; 264 more are of a ride without a date\.$/);
    expect(start).toMatch(/: record it with its time, or leave the adjustments out\.$/);
    expect(suggest(facts(few)).start).toBe('Ride on and record cadence, speed and gear changes.');
  });

  it('warns against unscrewing the barrel to its end where it is unscrewed, and of what to do where it is fully in', () => {
    const told = ({ cautions }: NextStep): string => cautions.map(({ text }) => text).join(' ');
    const low = nextStep('cable-tension-low', false);
    const high = nextStep('cable-tension-high', false);
    expect(low.action).toContain('anticlockwise');
    expect(told(low)).toMatch(/leave it a full turn of thread, do not unscrew it to its end/);
    expect(told(low)).not.toMatch(/fully in/);
    expect(high.action).toContain('turn the barrel adjuster clockwise');
    expect(told(high)).toMatch(/where it is fully in, do not force it\. Give the cable slack at its clamp/);
    expect(told(high)).not.toMatch(/unscrew/);
    for (const cause of ['cable-tension-low', 'cable-tension-high'] as const)
      expect(told(nextStep(cause, true))).not.toMatch(/barrel/);
  });

  it('names no turn of the other of two causes that its own bikes hold for past the mark by now', () => {
    const between: [Cause, Cause] = ['cable-friction', 'cable-tension-high'];
    const open = (mean: number) =>
      suggest(
        facts({
          seen: seen({ all: count(600, 40) }),
          ranked: [{ cause: between[0], probability: 0.68 }],
          undecided: { between, becauseOf: ['x'], sentence: 'Undecided.' },
          clicksFor: () => ({ parameter: 'cable-tension', unit: 'clicks', mean, low: mean - 1, high: mean + 1 }),
        }),
      ).action;
    expect(open(-3)).toMatch(/clicks clockwise/);
    expect(open(3)).not.toMatch(/clockwise/);
  });

  it('starts with the hanger where it began suddenly, and says in the second step how that one starts', () => {
    const onset = { kind: 'sudden', at: '2026-05-07T12:00:00Z', rideBeforeAt: null, probability: 0.9 } as const;
    const ranked = [{ cause: 'cable-tension-low' as const, probability: 0.9 }];
    const { steps, start } = suggest(facts({ seen: seen({ all: count(600, 40) }), ranked, onset }));
    expect(start).toBe('Do it before anything is turned.');
    expect(steps[1]).toMatch(/one click at a time\. With cable and housing in order, on a stand: one click/);
  });

  it('has clicks turned one by one on the stand up to the fewest, then ridden on, and tells what part of the way is done', () => {
    const turned = (cause: Cause, mean: number, turnedSoFar = 0, electronic = false) => {
      const clicks = { parameter: 'cable-tension', unit: 'clicks', mean, low: mean - 4, high: mean + 4 } as const;
      return suggest(
        facts({
          seen: seen({ all: count(600, 40) }),
          ranked: [{ cause, probability: 0.9 }],
          clicks: electronic ? { ...clicks, parameter: 'index-offset', unit: 'steps' } : clicks,
          now: now({ cause, fault: cause, turnedSoFar }),
          electronic,
        }),
      );
    };
    const low = turned('cable-tension-low', 7);
    expect(low.start).toMatch(
      /on a stand: one click anticlockwise .*, shift to and fro, then one more, until both directions run alike\. Where the stand does not show that, ride after 3 clicks\. In all/,
    );
    expect(low.verify).toMatch(/Fewer than before, but still some, means the right way and not yet far enough/);
    expect(turned('cable-tension-high', -4.4).start).toMatch(/ride after the first, which may be enough\./);
    const electronic = turned('cable-tension-high', -7, 0, true);
    expect(electronic.start).toMatch(/one step outboard.* ride after 3 steps\./);
    expect(electronic.cautions.join(' ')).toMatch(/range of the setting ends first, stop: .* hanger/);
    expect(low.cautions.join(' ')).not.toMatch(/range of the setting/);
    const partly = turned('cable-tension-low', 5, 2).start;
    expect(partly).toMatch(/ 2 clicks of about 7 are done\. It may take another 1 to 9 clicks/);
    expect(turned('pulley-gap-small', 5).verify).not.toMatch(/not yet far enough/);
  });

  it('counts the clicks it may take on the side that they are turned to', () => {
    const start = (low: number, high: number, cause: Cause) =>
      suggest(
        facts({
          seen: seen({ all: count(600, 40) }),
          ranked: [{ cause, probability: 0.9 }],
          clicks: { parameter: 'cable-tension', unit: 'clicks', mean: (low + high) / 2, low, high },
        }),
      ).start;
    expect(start(2, 5, 'cable-tension-low')).toMatch(/In all it may take 2 to 5 clicks/);
    expect(start(-1, 4, 'cable-tension-low')).toMatch(/In all it may take 1 to 4 clicks/);
    expect(start(-6, 2, 'cable-tension-low')).toMatch(/In all it may take 1 to 2 clicks/);
    expect(start(-6, -2, 'cable-tension-high')).toMatch(/In all it may take 2 to 6 clicks/);
  });

  it('doubts a logged entry where the bike shifts well only if its part or its sign is another', () => {
    const since = { at: '2026-05-08T06:00:00.000Z', shifts: 310, trouble: 1, adjusted: true, putRight: true };
    const step = (entryAt: string | null): string => {
      const { action, start } = suggest(facts({ wellSince: { ...since, there: { shifts: 40, trouble: 0 }, entryAt } }));
      return `${action} ${start}`;
    };
    expect(step(null)).toMatch(
      /^Turn nothing: the trouble hardly showed in the rides since 2026-05-08 \(.*0 of 40 where it showed before\)\. It may come back\./,
    );
    expect(step(null)).toMatch(/check its part, amount and sign/);
    expect(step('2026-05-07T18:00:00Z')).toMatch(
      /^Turn nothing: since what was logged on 2026-05-07 the bike shifts well/,
    );
    expect(step('2026-05-07T18:00:00Z')).not.toMatch(/check|come back/);
  });

  it('says that no ride counts, and why, instead of asking for more rides', () => {
    const none = { ranked: [{ cause: 'no-fault' as const, probability: 0.2 }], seen: seen({ all: count(0, 0) }) };
    for (const [ridesLeftOut, words] of [
      [1, /the only ride is left out.* it looks like another bike's\. Give it to the bike/],
      [3, /all 3 rides are left out.* they look like another bike's\. Give each of them to the bike/],
    ] as const) {
      const { action, start, verify } = suggest(facts({ ...none, ridesLeftOut }));
      expect(`${action} ${start}`).toMatch(words);
      expect(`${action} ${start} ${verify}`).not.toMatch(/[Rr]ide on|check ride|record cadence/);
    }
  });

  it('offers the fault on the other side of a setting only where no shifts since speak against it', () => {
    const last = { at: '2026-05-07T12:00:00Z', parameter: 'low-limit' } as const;
    const said = (shifts: number, late: number): string => {
      const since = { last, seen: seen({ shifts: () => count(shifts, late) }), lost: () => 0 };
      const cause = 'low-limit-loose';
      const unsettled = now({ cause, fault: cause, setting: 'unsettled', since });
      return suggest(
        facts({ ranked: [{ cause, probability: 0.9 }], seen: seen({ all: count(600, 40) }), now: unsettled }),
      ).action;
    };
    const offered = 'or by now it is a low limit screw too far in';
    expect(said(22, 0)).not.toContain(offered);
    expect(said(22, 1)).toContain(offered);
    expect(said(2, 0)).toContain(offered);
  });

  it('turns nothing on a guess where the rides since the last adjustment do not tell what it did', () => {
    const last = { at: '2026-05-07T12:00:00Z', parameter: 'low-limit' } as const;
    const since = { last, seen: seen({ all: count(40, 0) }), lost: () => 0 };
    const guess = suggest(
      facts({
        ranked: [{ cause: 'low-limit-tight', probability: 0.9 }],
        seen: seen({ all: count(600, 40) }),
        now: now({ cause: 'low-limit-tight', fault: 'low-limit-tight', setting: 'unsettled', since }),
      }),
    );
    expect([guess.parameter, guess.namesCause]).toEqual(['none', false]);
    expect(guess.action).toBe(
      'Ride before anything more is turned: what was ridden since 2026-05-07 does not tell yet whether a low limit screw too far in is put right, or by now it is a low limit screw too far out.',
    );
    expect(guess.start).toMatch(/Pushed by hand, the guide pulley should stop .* and no further\. Keep off that cog/);
  });
});
