import { listed } from '../../src/numeric/listed.ts';

/** Says which cogs of a guess are not filled in, since no ride shows their teeth. */
export const leftOutCogs = (teeth: readonly number[]): string =>
  `No ride shows ${listed(teeth)}, so ${teeth.length === 1 ? 'it is' : 'they are'} not filled in here. Write in every cog that the bike has.`;
