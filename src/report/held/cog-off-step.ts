import { type CogOff, sizeWord } from './cog-off.ts';
import type { OtherStep } from './instead.ts';

/** What a mechanic looks at where the chain stands a whole cog from the one asked for. Common practice in the trade, no source. */
export function cogOffStep({ cogs, rolloutMm }: CogOff, electronic: boolean): OtherStep {
  const size = sizeWord(cogs);
  const end = cogs > 0 ? 'largest' : 'smallest';
  return {
    steps: [
      'Turn no limit screw. On a stand turn the cranks by hand, shift from one end of the cassette to the other, and see on which cog the chain stands each time.',
      'Where it is the one asked for, the recorder counts the cogs wrongly: set its cassette anew, and turn nothing. Where it is not, look over derailleur and hanger for a knock.',
      electronic
        ? "Then set the derailleur to its position anew by the maker's manual: it may have lost it in a knock or when it was charged or taken off."
        : cableStep[size],
    ],
    start: 'The look on the stand: it tells a chain that stands wrongly from a recorder that counts wrongly.',
    verify: `On the next ride the rollout should come out near ${Math.round(rolloutMm)} mm again.`,
    cautions: [
      {
        kind: 'keep-off',
        text: `Keep off the ${end} cog until then: the derailleur is asked beyond it, and only its limit screw stops the chain there.`,
      },
    ],
  };
}

const cableStep = {
  smaller:
    'Then the cable: with the shifter and the chain on the smallest cog see whether the cable slipped in its clamp, or came slack at a stop or a housing end; draw it tight, clamp it, and set the indexing from there.',
  larger:
    'Then the cable: with the shifter and the chain on the smallest cog see whether the cable is clamped too tight, or caught or a housing end out of its stop; clamp it anew without pull, and set the indexing from there.',
} as const;
