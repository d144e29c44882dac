/**
 * Why no verdict is drawn from the shifts of a bike.
 *
 * - `rings-unclear`: nobody knows on how many rings it was pedalled
 * - `rides-apart`: its rides look like those of several bikes, and the bike was guessed from them
 * - `positions-for-teeth`: its gear records name positions in place of teeth, so that none can be read
 * - `speed-unit`: the speed of its rides is in another unit than metres a second
 * - `one-cog-off`: on its newest rides the chain stood a cog from the one asked for, all ride long
 * - `another-cassette`: its newest rides were ridden on another cassette than the one described
 * - `other-cogs`: its rides name other cogs than the bike as described, and none names the bike's
 * - `other-steps`: the steps between the gears of its rides are not those of the cogs as described and named, so it has others
 */
export const heldBackCodes = [
  'rings-unclear',
  'rides-apart',
  'positions-for-teeth',
  'speed-unit',
  'one-cog-off',
  'another-cassette',
  'other-cogs',
  'other-steps',
] as const;
/** One of `heldBackCodes`. */
export type HeldBackCode = (typeof heldBackCodes)[number];
