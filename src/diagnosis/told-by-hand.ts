import type { Cause } from './causes.ts';

/** What a look or a touch on the stand tells about a cause. Common practice in the trade, no source. */
const byHand: Readonly<Record<Cause, string>> = {
  'no-fault': '',
  'cable-tension-low':
    'On the stand, shift to and fro: where the chain climbs to larger cogs worse than it comes back, some clicks anticlockwise at the barrel, one at a time, should make it plainly better.',
  'cable-tension-high':
    'On the stand, shift to and fro: where the chain drops to smaller cogs worse than it climbs back, some clicks clockwise at the barrel, one at a time, should make it plainly better.',
  'low-limit-tight': 'Pushed by hand, the guide pulley should come to stand straight below the largest cog.',
  'low-limit-loose': 'Pushed by hand, the guide pulley should stop straight below the largest cog and no further.',
  'high-limit-tight': 'With the cable slack, the guide pulley should stand a hair outside the smallest cog.',
  'high-limit-loose':
    'With the cable slack, the guide pulley should stand a hair outside the smallest cog and no further.',
  'pulley-gap-small':
    'On the second largest cog, listen whether the guide pulley grinds on the teeth, and measure the gap.',
  'pulley-gap-large': 'On the second largest cog, measure the gap between guide pulley and largest cog.',
  'hanger-bent': 'A hanger gauge tells within a minute.',
  'cable-friction': 'With the chain off load, pull the bare cable by hand: it should run and spring back freely.',
  'worn-drivetrain': 'A chain checker tells within a minute.',
};

/** The motor holds an electronic derailleur and may be hurt where it is pushed against: it is shifted, never pushed. */
const SHIFTED_INBOARD =
  'Shifted onto the largest cog, the cranks turned slowly on a stand and the derailleur never pushed';

/** The same for electronic actuation, which has no cable and is moved by its motor alone; the others hold for both. */
const byHandElectronic: Partial<Record<Cause, string>> = {
  'cable-tension-low':
    'On the stand, shift to and fro: where the chain climbs to larger cogs worse than it comes back, some steps of the index offset inboard, one at a time, should make it plainly better.',
  'cable-tension-high':
    'On the stand, shift to and fro: where the chain drops to smaller cogs worse than it climbs back, some steps of the index offset outboard, one at a time, should make it plainly better.',
  'low-limit-tight': `${SHIFTED_INBOARD}, the guide pulley should come to stand straight below it.`,
  'low-limit-loose': `${SHIFTED_INBOARD}, the guide pulley should stop straight below it and no further.`,
  'high-limit-tight': 'On the smallest cog, the guide pulley should stand a hair outside it.',
  'high-limit-loose': 'On the smallest cog, the guide pulley should stand a hair outside it and no further.',
  'cable-friction':
    'On the stand, shift over the whole cassette and back: the derailleur should move alike at every cog, with no dirt or play in its pivots.',
};

/** A look or a touch that tells a cause within minutes and can be undone; empty for `no-fault`. */
export const toldByHand = (cause: Cause, electronic: boolean): string =>
  (electronic ? byHandElectronic[cause] : undefined) ?? byHand[cause];

/** The looks that tell each of some causes, none of them twice: a gap is measured once, whichever way it may be off. */
export const allToldByHand = (causes: readonly Cause[], electronic: boolean): string[] =>
  causes
    .filter((cause) => cause !== 'pulley-gap-large' || !causes.includes('pulley-gap-small'))
    .map((cause) => toldByHand(cause, electronic))
    .filter((look) => look !== '');
