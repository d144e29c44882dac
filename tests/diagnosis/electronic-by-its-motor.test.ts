import { describe, expect, it } from 'vitest';
import { cassetteEnds } from '../../src/adjustments/end-cog-count.ts';
import { causes } from '../../src/diagnosis/causes.ts';
import { lookThenOpen } from '../../src/diagnosis/next-step/look-then-open.ts';
import { nextStep } from '../../src/diagnosis/next-step/next-steps.ts';
import { suggest } from '../../src/diagnosis/next-step/suggest.ts';
import type { Fault } from '../../src/diagnosis/next-step/suggestion-facts.ts';
import { turnBack } from '../../src/diagnosis/next-step/turn-back.ts';
import { turnableFaults } from '../../src/diagnosis/now/turned-towards.ts';
import { toldByHand } from '../../src/diagnosis/told-by-hand.ts';
import { count, facts, now, seen } from './made-facts.ts';

const faults = causes.filter((cause): cause is Fault => cause !== 'no-fault');
const tooFar = { amount: 1, byLast: true, lastAt: '', lastTowards: true };

/** Every text of the next step that may speak of moving a derailleur, fault by fault. */
function textsFor(electronic: boolean): string[] {
  const bad = seen({ all: count(600, 60) });
  const asked = faults.flatMap((cause) => {
    const ranked = [{ cause, probability: 0.98 }];
    const keepOff = cassetteEnds.map((end) => now({ keepOff: new Set([end]) }));
    return [now(), now({ setting: 'unsettled' }), now({ setting: 'untested' }), ...keepOff].map((own) =>
      JSON.stringify(suggest(facts({ ranked, electronic, seen: bad, now: own }))),
    );
  });
  const between = faults.flatMap((other) =>
    ['pulley-gap-small', 'low-limit-tight'].map((cause) => {
      const undecided = { between: [cause as Fault, other] as const, becauseOf: [], sentence: '' };
      const ranked = [
        { cause: cause as Fault, probability: 0.5 },
        { cause: other, probability: 0.4 },
      ];
      return JSON.stringify(suggest(facts({ ranked, undecided, electronic, seen: bad })));
    }),
  );
  return [
    ...asked,
    ...between,
    ...faults.map((cause) => toldByHand(cause, electronic)),
    ...faults.map((cause) => JSON.stringify(nextStep(cause, electronic))),
    ...turnableFaults.map((fault) => JSON.stringify(turnBack({ ...tooFar, fault }, facts({ electronic })))),
    ...cassetteEnds.map((end) => JSON.stringify(lookThenOpen(end, { action: 'Open it.' }, facts({ electronic })))),
  ];
}

/** Moving a derailleur by hand; turning the cranks so, or being told never to push, is none. */
const moved = (text: string): boolean =>
  /\bpush|by hand/i.test(text.replaceAll('the derailleur never pushed', '').replace(/(cranks|turn) by hand/g, ''));

describe('an electronic derailleur is moved by its motor alone', () => {
  it('is pushed by hand in no text, while one on a cable is', () => {
    expect(textsFor(true).filter(moved)).toEqual([]);
    expect(textsFor(false).filter(moved).length).toBeGreaterThan(8);
  });

  it('is told so where its low limit is looked at', () => {
    for (const cause of ['low-limit-tight', 'low-limit-loose'] as const)
      expect(toldByHand(cause, true)).toMatch(
        /^Shifted onto the largest cog, .* never pushed, the guide pulley should/,
      );
    expect(nextStep('low-limit-tight', true).start).toMatch(
      /^On a stand, shift onto the largest cog, .* and look\. Only where the guide pulley stops short, an eighth/,
    );
  });
});
