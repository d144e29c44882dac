import { FURTHEST_HOURS } from '../../adjustments/compare-skips.ts';
import { MOST_SKIPS_UNSEEN, skipsBeforeAndAfter } from '../../adjustments/skip-words.ts';
import { counted } from '../../numeric/counted.ts';
import type { AdjustmentReport } from '../adjustment-report-schema.ts';
import { asDecided, howSurely } from './how-surely.ts';

type Skipping = NonNullable<AdjustmentReport['skipping']>;

/** Whether a new chain or cassette helped, by the skips under load: those are what it is replaced for. */
export function skipVerdict({ before, after, probabilityFewer, hoursStillNeeded }: Skipping): string[] {
  if (before.hours === 0) return ['Nothing was pedalled before it, so there are no skips to compare with.'];
  const more = stillNeeded(after.hours, hoursStillNeeded);
  if (after.hours === 0)
    return [
      `Before it ${counted(before.skips, 'skip')} ${before.skips === 1 ? 'was' : 'were'} seen in ${before.hours.toFixed(1)} hours of pedalling; nothing was ridden after it yet.`,
      ...(before.skips > 0 ? more : []),
    ];
  if (before.skips + after.skips === 0)
    return [
      `No skip was seen in ${before.hours.toFixed(1)} hours of pedalling before, nor in ${after.hours.toFixed(1)} hours since.`,
      MOST_SKIPS_UNSEEN,
    ];
  const helped = asDecided(
    probabilityFewer,
    'That helped against skips',
    'More skips were seen since',
    'Not decided yet whether that helped against skips',
  );
  return [
    `${helped}: ${skipsBeforeAndAfter({ before, after })}; ${howSurely(probabilityFewer, 'fewer', 'more')}.`,
    ...more,
  ];
}

function stillNeeded(hoursAfter: number, needed: number | null): string[] {
  if (needed === 0) return [];
  if (needed !== null)
    return [`About ${counted(needed, hoursAfter > 0 ? 'more hour' : 'hour')} of pedalling will tell.`];
  return [`Not even ${FURTHEST_HOURS} more hours${hoursAfter > 0 ? ' like those since' : ''} would tell.`];
}
