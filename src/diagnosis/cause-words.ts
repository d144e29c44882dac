import type { Cause } from './causes.ts';

const cableWords: Readonly<Record<Cause, string>> = {
  'no-fault': 'no fault',
  'cable-tension-low': 'too little cable tension',
  'cable-tension-high': 'too much cable tension',
  'low-limit-tight': 'a low limit that stops short of the largest cog',
  'low-limit-loose': 'a low limit that lets the chain past the largest cog',
  'high-limit-tight': 'a high limit that will not let the chain settle on the smallest cog',
  'high-limit-loose': 'a high limit that lets the chain past the smallest cog',
  'pulley-gap-small': 'too small a gap between guide pulley and cogs',
  'pulley-gap-large': 'too large a gap between guide pulley and cogs',
  'hanger-bent': 'a bent hanger',
  'cable-friction': 'friction in cable and housing',
  'worn-drivetrain': 'a worn chain and cogs',
};

/** A cause within a sentence. Electronic actuation has no cable: its tension causes are offsets. */
export function causeWords(cause: Cause, electronic: boolean): string {
  if (electronic && cause === 'cable-tension-low') return 'an index offset too far outboard';
  if (electronic && cause === 'cable-tension-high') return 'an index offset too far inboard';
  if (electronic && cause === 'cable-friction') return 'friction in the derailleur';
  return cableWords[cause];
}
