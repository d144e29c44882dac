import type { Bike } from '../drivetrain/bike.ts';
import type { Cause } from './causes.ts';

/** A cause as a mechanic says it, by itself and within a sentence, and what it does. */
interface CauseWords {
  readonly name: string;
  readonly phrase: string;
  readonly meaning: string;
}

const words: Readonly<Record<Cause, CauseWords>> = {
  'no-fault': {
    name: 'nothing mis-set',
    phrase: 'no fault',
    meaning: 'shifting is as good as that of a well-set bike',
  },
  'cable-tension-low': {
    name: 'cable tension too low',
    phrase: 'too low a cable tension',
    meaning: 'the guide pulley stands too far outboard, so shifts to larger cogs come late or not at all',
  },
  'cable-tension-high': {
    name: 'cable tension too high',
    phrase: 'too high a cable tension',
    meaning: 'the guide pulley stands too far inboard, so shifts to smaller cogs come late or not at all',
  },
  'low-limit-tight': {
    name: 'low limit screw too far in',
    phrase: 'a low limit screw too far in',
    meaning: 'the derailleur is stopped short of the largest cog',
  },
  'low-limit-loose': {
    name: 'low limit screw too far out',
    phrase: 'a low limit screw too far out',
    meaning: 'the chain can go past the largest cog towards the spokes',
  },
  'high-limit-tight': {
    name: 'high limit screw too far in',
    phrase: 'a high limit screw too far in',
    meaning: 'the chain will not settle on the smallest cog',
  },
  'high-limit-loose': {
    name: 'high limit screw too far out',
    phrase: 'a high limit screw too far out',
    meaning: 'the chain can go past the smallest cog into the frame',
  },
  'pulley-gap-small': {
    name: 'guide pulley too close to the cogs',
    phrase: 'a guide pulley too close to the cogs',
    meaning: 'shifts to the few largest cogs are late and rough',
  },
  'pulley-gap-large': {
    name: 'guide pulley too far from the cogs',
    phrase: 'a guide pulley too far from the cogs',
    meaning: 'shifts are slow both ways over the whole cassette',
  },
  'hanger-bent': {
    name: 'derailleur hanger bent',
    phrase: 'a bent derailleur hanger',
    meaning: 'the guide pulley is off one way at one end of the cassette and the other way at the other end',
  },
  'cable-friction': {
    name: 'friction in cable and housing',
    phrase: 'friction in cable and housing',
    meaning: 'the cable does not run freely, so shifts to smaller cogs come late and at random',
  },
  'worn-drivetrain': {
    name: 'chain and cogs worn',
    phrase: 'a worn chain and cogs',
    meaning: 'the chain skips under load',
  },
};

const electronicWords: Readonly<Partial<Record<Cause, CauseWords>>> = {
  'cable-tension-low': {
    ...words['cable-tension-low'],
    name: 'index offset too far outboard',
    phrase: 'an index offset too far outboard',
  },
  'cable-tension-high': {
    ...words['cable-tension-high'],
    name: 'index offset too far inboard',
    phrase: 'an index offset too far inboard',
  },
  'cable-friction': {
    name: 'derailleur moves stiffly',
    phrase: 'a derailleur that moves stiffly',
    meaning: 'its joints do not move freely, so shifts come late and at random',
  },
};

/** Words for a cause on a bike with this actuation. */
export function causeWords(cause: Cause, actuation: Bike['actuation']): CauseWords {
  return (actuation === 'electronic' ? electronicWords[cause] : undefined) ?? words[cause];
}

/** A cause within a sentence. */
export const causePhrase = (cause: Cause, electronic: boolean): string =>
  causeWords(cause, electronic ? 'electronic' : 'cable').phrase;
