import { describe, expect, it } from 'vitest';
import type { Cause } from '../../src/diagnosis/causes.ts';
import { verdictSentence } from '../../src/report/words/verdict-words.ts';
import { sampleReport } from './sample-report.ts';

const sample = sampleReport();
const [made] = sample.adjustments;
const onto = (shifts: number, trouble: number) => ({ asked: shifts, shifts, trouble, lost: 0 });
type Made = Partial<typeof made>;

/** A low limit let out, onto whose cog shifts failed before and not since. */
const letOut: Made = {
  ...{ at: '2026-04-12T18:30:00.000Z', parameter: 'low-limit', amount: -0.25, unit: 'turns' },
  ...{ probabilityBetter: 0.99, together: null, cancelledOut: false },
  endCog: { teeth: 37, end: 'past-largest', before: onto(42, 7), after: onto(29, 0) },
};

/** The headline over a bike of which these are the two likeliest. */
function headline(
  likely: readonly [Cause, number],
  next: readonly [Cause, number],
  entries: readonly Made[],
  lost = 0,
) {
  const { diagnosis, ...rest } = sample;
  const causes = [likely, next].map(([cause, probability]) => ({ cause, probability, evidence: [] }));
  const nothing = { ghostShifts: 0, skips: 0, chainDrops: { pastLargest: lost, pastSmallest: 0, elsewhere: 0 } };
  const counts = { toLarger: { shifts: 42, trouble: 0 }, toSmaller: { shifts: 44, trouble: 0 } };
  const now = { ...diagnosis.now, setting: 'same' as const, since: { at: letOut.at!, ...nothing, ...counts } };
  const undecided = { between: [likely[0], next[0]] as [Cause, Cause], becauseOf: ['x'], sentence: 'Undecided.' };
  const open = likely[1] < 0.5 ? undecided : null;
  const adjustments = entries.map((entry, group) => ({ ...made, ...letOut, ...entry, group }));
  const told = { ...diagnosis, causes, now, undecided: open, unexplained: null, shiftsWellSince: null };
  return verdictSentence({ ...rest, adjustments, diagnosis: { ...told, cured: false } });
}

const HELPED =
  /^What was done on 2026-04-12 \(low limit screw -0\.25 turns\) helped: 7 of 42 shifts onto the largest cog went wrong before, 0 of 29 since\. /;
const tight = ['low-limit-tight', 0.06] as const;

describe('an entry that helped for sure', () => {
  it('is said by the headline where no fault is named now, whatever stood first before', () => {
    expect(headline(['no-fault', 0.63], tight, [{}])).toMatch(HELPED);
    expect(headline(['no-fault', 0.63], tight, [{}])).toMatch(/\. Nothing points to a mis-set part \(63 % sure\)/);
    expect(headline(['no-fault', 0.42], tight, [{}])).toMatch(HELPED);
    expect(headline(['low-limit-tight', 0.9], ['no-fault', 0.1], [{}])).not.toMatch(/helped/);
  });

  it('is not where it is not sure, was turned towards the fault, or something made it worse since', () => {
    const sound = (...entries: Made[]) => headline(['no-fault', 0.63], tight, entries);
    expect(sound({ probabilityBetter: 0.9 })).not.toMatch(/helped/);
    expect(sound({ amount: 0.25 })).not.toMatch(/helped/);
    const after = { at: '2026-04-14T18:30:00.000Z', parameter: 'pulley-gap', endCog: null } as const;
    expect(sound({}, { ...after, probabilityBetter: 0.5 })).toMatch(HELPED);
    expect(sound({}, { ...after, probabilityBetter: 0.01 })).not.toMatch(/helped/);
  });
});

describe('a fault between which and none it is open', () => {
  const aligned: Made = { parameter: 'hanger', amount: null, unit: 'done', endCog: null, probabilityBetter: 0.8 };
  const open = (entry: Made, lost = 0) => headline(['no-fault', 0.37], ['hanger-bent', 0.34], [entry], lost);

  it('may be mended by what was done last, which the headline says', () => {
    expect(open(aligned)).toMatch(
      / and derailleur hanger bent \(34 %\)\. What was done on 2026-04-12 \(derailleur hanger aligned or replaced\) may have put that right; what was ridden since does not tell yet\.$/,
    );
  });

  it('is not by work on another part, nor where a chain was lost since', () => {
    expect(open({ probabilityBetter: 0.8 })).toMatch(/hanger bent \(34 %\)\.$/);
    expect(open(aligned, 1)).toMatch(/hanger bent \(34 %\)\.$/);
  });
});
