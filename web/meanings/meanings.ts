import { CLEAN_WITHIN_REVS, LATE_WITHIN_REVS } from '../../src/shifts/turn-limits.ts';

/** A word and what it means here. */
export interface Meaning {
  readonly word: string;
  readonly meaning: string;
}

/** Words of the trade and of the report, in the order in which a reader meets them. The trade's are common practice, no single source. */
export const meanings: readonly { readonly title: string; readonly words: readonly Meaning[] }[] = [
  {
    title: 'On the bike',
    words: [
      {
        word: 'Cog, chainring',
        meaning: 'The toothed wheels at the back and at the cranks. A cog is named by its teeth: the 11, the 28.',
      },
      {
        word: 'To larger, to smaller cogs',
        meaning:
          'Towards the spokes, which is easier to pedal, and towards the frame, which is harder. Riders mean opposite things by up and down, so neither word is used.',
      },
      {
        word: 'Guide pulley',
        meaning: 'The upper of the two small wheels of the rear derailleur. Where it stands, the chain goes.',
      },
      {
        word: 'Inboard, outboard',
        meaning: 'Towards the spokes, and away from them.',
      },
      {
        word: 'Cable tension, barrel adjuster',
        meaning:
          'The cable pulls the derailleur inboard. The barrel adjuster lengthens its housing: a click anticlockwise is more tension.',
      },
      {
        word: 'Index offset',
        meaning: 'The same on an electronic derailleur, moved in steps at the controls.',
      },
      {
        word: 'Low limit, high limit',
        meaning:
          'Two screws that stop the derailleur at the largest and at the smallest cog. Clockwise is in: less room.',
      },
      {
        word: 'B-screw, pulley gap',
        meaning: 'The screw that sets how far below the cogs the guide pulley runs. Clockwise is further away.',
      },
      {
        word: 'Hanger',
        meaning:
          'The part of the frame that carries the derailleur, made to bend or break first. A gauge shows whether it is straight.',
      },
      {
        word: 'On a stand',
        meaning: 'With the rear wheel off the ground, turning the cranks by hand, fingers away from chain and wheel.',
      },
    ],
  },
  {
    title: 'In a ride',
    words: [
      {
        word: 'Clean',
        meaning: `The chain drives on the cog that was asked for within ${CLEAN_WITHIN_REVS} turns of the cranks.`,
      },
      { word: 'Late', meaning: `It takes longer than that, up to ${LATE_WITHIN_REVS} turns.` },
      {
        word: 'Missed',
        meaning: `It is not there within ${LATE_WITHIN_REVS} turns, or not before the rider shifts again.`,
      },
      { word: 'Overshot', meaning: 'It settles beyond the cog that was asked for.' },
      {
        word: 'Unclear',
        meaning:
          'It is likelier than not that something went wrong, but no one kind of trouble is half sure. It counts as the likeliest kind; where clean is likelier than each of them, that is said.',
      },
      {
        word: 'Not judged',
        meaning: 'Too little pedalling followed to tell, or no record shows where the chain went.',
      },
      {
        word: 'Unasked shift, ghost shift',
        meaning: 'The chain changes cog by itself, with no shift asked for in the five seconds before.',
      },
      {
        word: 'Lost chain',
        meaning:
          'The cranks no longer drive the wheel: the chain went past an end of the cassette or off the chainring.',
      },
      { word: 'Skip', meaning: 'The chain slips over teeth under load and stays on its cog.' },
    ],
  },
  {
    title: 'In a verdict',
    words: [
      {
        word: 'Look it over first',
        meaning:
          'Something is known of the bike that can hurt its rider. It is said before the state, and goes before any ride and any other work.',
      },
      {
        word: 'Needs service',
        meaning:
          'A part is all but surely at fault, or shifts surely go wrong so often that it takes hands, whatever the cause. So too after a chain left the cassette, or an adjustment that went too far.',
      },
      {
        word: 'Keep an eye on it',
        meaning:
          'A fault is likelier than not, or some shifts surely go wrong, but not enough for the workshop; or trouble does not show any more and nothing logged accounts for that.',
      },
      {
        word: 'Too little data',
        meaning:
          'Too few shifts could be judged to name a fault or to rule one out, or something keeps them from being weighed.',
      },
      { word: 'Shifts well', meaning: 'Hardly any shift goes wrong, and no fault is likelier than none.' },
      { word: 'In trouble', meaning: 'Late, missed or overshot, of all shifts that could be judged.' },
      {
        word: '95 % interval',
        meaning: 'Where the true value lies in nineteen cases of twenty. Few shifts make it wide.',
      },
      {
        word: 'Per cent beside a cause',
        meaning:
          'How likely it is, all causes together being 100 %. It is worked out from logs; nobody looked at the bike.',
      },
      {
        word: 'Lateral error',
        meaning: 'How far the guide pulley stands beside the cog that it should stand under, in millimetres.',
      },
      {
        word: 'Check ride',
        meaning: 'Shifts to make on the next ride, chosen because they tell the likely causes apart.',
      },
    ],
  },
];
