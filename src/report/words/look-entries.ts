import { adjustmentWords } from '../../adjustments/parameter-words.ts';
import { utcMoment } from '../../numeric/moment-words.ts';
import type { LookReport } from '../report-schema.ts';

/** Said of a look beside its words. */
export const NOTHING_TURNED = 'Nothing was turned, so no rides are compared.';

/** The heading of what was looked at, in text and page. */
export const LOOKED_AT = 'Looked at and found right';

/** What was looked at and found right, an entry for each. */
export const lookEntries = (looks: readonly LookReport[]): string[] =>
  looks.map((look) => `${utcMoment(look.at)}  ${adjustmentWords({ ...look, amount: 0 })}. ${NOTHING_TURNED}`);
