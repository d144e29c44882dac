import { listed } from '../../src/numeric/listed.ts';

/** Says which cogs of a guess are not filled in, since nothing shows them. */
export const leftOutCogs = (teeth: readonly number[]): string =>
  `What is made up is not filled in here: ${listed(teeth)}. Write in every cog that the bike has.`;
