import { describe, expect, it } from 'vitest';
import { assumptions } from '../../src/diagnosis/assumptions.ts';
import { type Cause, causes } from '../../src/diagnosis/causes.ts';
import { diagnose } from '../../src/diagnosis/diagnose.ts';
import { buildEvidence } from '../../src/diagnosis/evidence/build-evidence.ts';
import { observe } from '../../src/diagnosis/observed.ts';
import { posterior } from '../../src/diagnosis/posterior/posterior.ts';
import { varyAssumptions } from '../../src/diagnosis/posterior/sensitivity.ts';
import { weighCauses } from '../../src/diagnosis/posterior/weigh-causes.ts';
import { undecidedBetween } from '../../src/diagnosis/sentences/undecided-between.ts';
import { bentHanger, cableBike, cassette, healthyPattern, patternRide } from './pattern-ride.ts';

describe('a verdict that what is taken for granted would turn', () => {
  it('is said to be open in words for riders; what turns it is listed beside', () => {
    const ride = patternRide({ shifts: 8, pattern: (_, larger) => (larger ? {} : { late: 0.1, missed: 0.2 }) });
    const { undecided } = diagnose({ bike: cableBike, rides: [ride], adjustments: [] });
    const { becauseOf = [], sentence = '' } = undecided ?? {};
    expect(becauseOf.length).toBeGreaterThan(0);
    expect(sentence).toMatch(
      /^Undecided between .* and .*: both fit these rides, and which of them fits better hangs on what nobody has measured\.$/,
    );
    for (const meaning of becauseOf) expect(sentence).not.toContain(meaning);
  });
});

describe('a low limit behind which a bent hanger may stand', () => {
  /** The limit is named, the ride shows the rival: so an assumption turns it. */
  const between = (rival: 'no-fault' | 'hanger-bent', limitOrHanger: boolean): string => {
    const top: Cause = 'low-limit-loose';
    const ride = patternRide({ shifts: 8, pattern: rival === 'no-fault' ? healthyPattern : bentHanger });
    const evidence = buildEvidence({ bike: cableBike, rides: [ride], adjustments: [] });
    const weighed = weighCauses(evidence, { cassetteLength: cassette.length, cogPitchMm: 3.65, electronic: false });
    const share = (cause: Cause): number => (cause === top ? 0.5 : cause === rival ? 0.499 : 0.0001);
    const order: Cause[] = [top, rival, ...causes.filter((cause) => cause !== top && cause !== rival)];
    const ranked = order.map((cause) => ({ cause, probability: share(cause), evidence: [] }));
    const known = {
      seen: observe([ride], cableBike),
      electronic: false,
      failsPlainly: null,
      limitOrHanger,
      spoiled: new Map(),
    };
    return undecidedBetween(weighed, causes.map(share), ranked, known)?.sentence ?? '';
  };

  it('is not spoken of alone beside anything else, as in the headline', () => {
    expect(between('no-fault', true)).toMatch(/^Undecided between a fault of low limit or hanger and no fault:/);
    expect(between('no-fault', false)).toMatch(/^Undecided between a low limit screw too far out and/);
    expect(between('hanger-bent', true)).toMatch(
      /^Undecided between a low limit screw too far out and a bent derailleur hanger:/,
    );
  });
});

describe('what is varied', () => {
  it.each([false, true])('is nothing that the bike does not have; electronic: %s', (electronic) => {
    const rides = [0, 2].map((day) => patternRide({ day, shifts: 2, pattern: healthyPattern }));
    const at = '2026-05-02T18:00:00Z';
    const turned = { at, parameter: 'pulley-gap', amount: 0.5, unit: 'turns', note: '' } as const;
    const evidence = buildEvidence({ bike: cableBike, rides, adjustments: [turned] });
    const weighed = weighCauses(evidence, { cassetteLength: cassette.length, cogPitchMm: 3.65, electronic });
    const varied = varyAssumptions(weighed, posterior(weighed)).map(({ meaning }) => meaning);
    const { stepMm, clickMm, gapTurn } = assumptions;
    expect(varied).toContain(gapTurn.meaning);
    expect(varied.includes(stepMm.meaning)).toBe(electronic);
    expect(varied.includes(clickMm.meaning)).toBe(!electronic);
  });
});
