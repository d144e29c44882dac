import { listed } from '../../src/numeric/listed.ts';

/** Says which cogs of a guess are not filled in, since nothing shows them. */
export const leftOutCogs = (teeth: readonly number[]): string =>
  `Not filled in, since no ride shows ${teeth.length === 1 ? 'it' : 'them'}: ${listed(teeth)}. Write in every cog that the bike has.`;
