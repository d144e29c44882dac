import { describe, expect, it } from 'vitest';
import { causes } from '../../src/diagnosis/causes.ts';
import type { DiagnosisRide } from '../../src/diagnosis/diagnosis.ts';
import { type Observed, observe } from '../../src/diagnosis/observed.ts';
import { evidenceSentences } from '../../src/diagnosis/sentences/evidence-sentences.ts';
import { unshownSentences } from '../../src/diagnosis/sentences/where-it-shows.ts';
import type { ShiftEvent } from '../../src/shifts/ride-events.ts';
import { cableBike, type PatternRide, patternRide } from './pattern-ride.ts';

const seen = (pattern: PatternRide['pattern']): Observed => observe([patternRide({ pattern })], cableBike);

describe('the counts that speak for a cause', () => {
  it('part the cassette where a small gap shows, however far it reaches', () => {
    const reaching = seen((cog, larger) => (larger && cog >= 6 && cog < 11 ? { late: 0.25 } : {}));
    expect(evidenceSentences('pulley-gap-small', reaching)).toEqual([
      '15 of 72 shifts to larger onto the 6 largest cogs, the 24 to the 51, were late or missed, 0 of 60 onto the others.',
    ]);
    expect(unshownSentences('pulley-gap-small', reaching)).toEqual([]);
  });

  it('have one comma after the cogs where none of the shifts onto them was judged', () => {
    const ride = patternRide({ pattern: () => ({ late: 0.25 }) });
    const shifts = ride.events.shifts.filter(({ toCog }) => toCog < 4);
    const rides = [{ ...ride, events: { ...ride.events, shifts } }];
    const [small] = evidenceSentences('pulley-gap-small', observe(rides, cableBike));
    expect(small).toMatch(/^No judged shift to larger onto the \d largest cogs, the \d+ to the 51, \d/);
  });

  it('speak of one shift as of one', () => {
    const onto51 = (shifts: number) => {
      const ride = patternRide({ pattern: () => ({}), shifts });
      const kept = ride.events.shifts.filter(({ toCog }, i) => toCog === 11 || i === 0);
      const late = kept.map((one) => (one.toCog === 11 ? one : { ...one, outcome: 'late' as const }));
      return evidenceSentences(
        'low-limit-tight',
        observe([{ ...ride, events: { ...ride.events, shifts: late } }], cableBike),
      );
    };
    expect(onto51(1)[0]).toMatch(/^0 of 1 shift onto the largest cog \(51\) was late or missed/);
    expect(onto51(2)[0]).toMatch(/^0 of 2 shifts onto the largest cog \(51\) were late or missed/);
  });

  it('say of a lost chain that the log hardly shows that it seems to have been lost', () => {
    const lostAt = (...confidences: readonly number[]) => {
      const ride = patternRide({ pattern: () => ({}), drops: confidences.map(() => ['past-largest', 11] as const) });
      const chainDrops = ride.events.chainDrops.map((drop, i) => ({ ...drop, confidence: confidences[i] }));
      const counted = observe([{ ...ride, events: { ...ride.events, chainDrops } }], cableBike);
      return (['low-limit-loose', 'hanger-bent'] as const).flatMap((cause) =>
        evidenceSentences(cause, counted).filter((line) => / past the largest cog /.test(line)),
      );
    };
    for (const line of lostAt(0.7))
      expect(line).toMatch(/^The chain seems to have been lost past the largest cog once/);
    for (const line of lostAt(0.7, 0.6)) expect(line).toMatch(/^The chain seems to have been lost .* cog twice/);
    for (const line of lostAt(0.9, 0.8)) expect(line).toMatch(/^The chain was lost past the largest cog twice/);
    for (const line of lostAt(0.7, 0.8))
      expect(line).toMatch(/^The chain was lost past the largest cog once and perhaps once more/);
    expect(lostAt(0.7).length).toBe(2);
  });

  it('are said not to show it where they do not', () => {
    const alike = seen(() => ({ late: 0.25 }));
    for (const cause of ['cable-tension-low', 'cable-friction', 'pulley-gap-small', 'high-limit-tight'] as const)
      expect(unshownSentences(cause, alike), cause).toEqual([
        'These counts do not show it by themselves: it is what explains best how long each shift took and how sure its outcome is, all taken together.',
      ]);
    expect(unshownSentences('pulley-gap-large', alike)).toEqual([]);
  });

  it('tell by how much slower the clean shifts were, where that is what shows it', () => {
    const slow = patternRide({ pattern: () => ({}) });
    const shifts = slow.events.shifts.map((shift) =>
      shift.direction === 'to-larger' ? { ...shift, crankRevs: 1.1 } : shift,
    );
    const rides = [{ ...slow, events: { ...slow.events, shifts } }];
    expect(unshownSentences('cable-tension-low', observe(rides, cableBike))[0]).toMatch(
      /the clean shifts among them took 1\.10 turns of the crank, those of all 0\.90\.$/,
    );
  });

  it('put no skip of the old chain on the hours of the new one', () => {
    const ride = patternRide({ pattern: () => ({}) });
    const skip = { timeS: 100, cog: 3, confidence: 0.9, torqueNm: 40 };
    const skipped = observe([{ ...ride, events: { ...ride.events, skips: [skip] } }], cableBike);
    const [alike, replaced] = [false, true].map((parts) => evidenceSentences('worn-drivetrain', skipped, parts)[0]);
    expect(alike).toMatch(/^The chain skipped once in \d+\.\d hours of pedalling/);
    expect(replaced).toMatch(
      /^The chain skipped once in all, on the old parts and the new, none of them on the most used cog \(14\) but on the 16\.$/,
    );
  });

  it('say so where they are of other shifts or hours than the tables have', () => {
    const calm = seen(() => ({}));
    const [lost] = evidenceSentences('high-limit-loose', calm);
    expect(lost).toMatch(
      /^No chain was lost past the smallest cog in \d+ shifts asked for onto the 10, judged or not\.$/,
    );
    expect(evidenceSentences('no-fault', calm)[1]).toMatch(/skips seen in \d+\.\d hours of pedalling on known cogs\.$/);
  });

  it('are no row of comparisons of nothing with nothing', () => {
    const said = causes.flatMap((cause) =>
      evidenceSentences(
        cause,
        seen(() => ({})),
      ),
    );
    expect(said.filter((sentence) => /^0 of/.test(sentence))).toEqual(
      Array(9).fill('0 of 264 judged shifts were late, missed or overshot (0.0 %).'),
    );
    expect(said.join(' ')).not.toMatch(/0 of \d+ to (larger|smaller)|0 late against/);
  });

  it('say nothing of what nobody could see', () => {
    const ride = patternRide({ pattern: () => ({ late: 0.2 }), drops: [['unknown', null]], skipsOn: [5] });
    const only = (picks: (shift: ShiftEvent) => boolean, evidence: DiagnosisRide['evidence'] = 'full'): Observed => {
      const shifts = ride.events.shifts.filter(picks);
      return observe([{ ...ride, evidence, events: { ...ride.events, shifts } }], cableBike);
    };
    const unrecorded = only(() => false, 'ratio-only');
    const said = [
      unrecorded,
      only(({ toCog }) => toCog < 4),
      only(({ toCog }) => toCog === 11),
      only(({ toCog }) => toCog === 0),
      only(({ direction }) => direction === 'to-larger'),
      only(({ direction }) => direction === 'to-smaller'),
    ].map((one) => causes.flatMap((cause) => evidenceSentences(cause, one)));
    expect(said.flat().join('\n')).not.toMatch(/\b0 of 0\b|NaN/);
    expect(evidenceSentences('no-fault', unrecorded)).toEqual([
      'No shift was judged.',
      expect.stringMatching(/^1 dropped chain and 1 skip seen in /),
    ]);
    expect(said[1].join('\n')).toContain('; on the larger half of the cogs no shift was judged.');
    expect(said[1].join('\n')).toMatch(/^0 unasked shifts, 1 dropped chain/m);
  });

  it('are not given where an end cog was not used, and called little where it hardly was', () => {
    const ride = patternRide({ pattern: (cog) => (cog === 3 ? { late: 0.3 } : {}) });
    const onto51 = (most: number): Observed => {
      let met = 0;
      const shifts = ride.events.shifts.filter(({ toCog }) => toCog < 11 || met++ < most);
      return observe([{ ...ride, events: { ...ride.events, shifts } }], cableBike);
    };
    for (const cause of ['low-limit-tight', 'low-limit-loose'] as const)
      expect(evidenceSentences(cause, onto51(0)), cause).toEqual([
        'No shift onto the 51 was asked for: nothing is known of its limit.',
      ]);
    expect(evidenceSentences('low-limit-tight', onto51(1))[0]).toMatch(
      /^0 of 1 shift onto .* late or missed, which says little, /,
    );
    expect(evidenceSentences('low-limit-loose', onto51(1))[0]).toMatch(/ 1 shift .*, which says little\.$/);
    for (const cause of ['low-limit-tight', 'low-limit-loose'] as const)
      expect(evidenceSentences(cause, onto51(12))[0], cause).not.toContain('little');
  });

  it('name the chains lost past the ends where a bent hanger comes first by them', () => {
    const drops = [
      ['past-largest', 11],
      ['past-smallest', 0],
      ['past-smallest', 0],
    ] as const;
    const said = (pattern: PatternRide['pattern']): string[] =>
      evidenceSentences('hanger-bent', observe([patternRide({ pattern, drops })], cableBike));
    const lost =
      'The chain was lost past the largest cog once and past the smallest cog twice: a bent hanger carries both limits along.';
    expect(said(() => ({}))).toContain(lost);
    expect(said(() => ({ late: 0.1 }))).toContain(lost);
    expect(
      evidenceSentences(
        'hanger-bent',
        seen(() => ({ late: 0.1 })),
      ).join(),
    ).not.toContain('lost');
  });
});
