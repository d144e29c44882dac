import { createHash } from 'node:crypto';

/** Enough of a hash that two versions of one thing do not meet by chance. */
const HEX_DIGITS = 16;

/** Names what stands in the store now: another name as soon as anything in it was changed, the same where nothing was. */
export const versionOf = (stored: object): string =>
  createHash('sha256').update(JSON.stringify(stored)).digest('hex').slice(0, HEX_DIGITS);
