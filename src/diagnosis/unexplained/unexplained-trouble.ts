import { figure } from '../../numeric/figure.ts';
import { causePhrase } from '../cause-words.ts';
import type { Cause } from '../causes.ts';
import type { UnexplainedTrouble } from '../diagnosis.ts';
import type { Observed } from '../observed.ts';
import type { Unexplained } from './find-unexplained.ts';
import { lookAtPlaces } from './look-at-places.ts';
import { countsInWords, foretoldInWords, placesInWords } from './place-words.ts';

/** What does not explain it. */
function unexplainedBy(by: readonly Cause[], electronic: boolean): string {
  if (by[0] === 'no-fault') return 'Explained by none of the causes weighed';
  if (by.length > 2 || by.includes('no-fault')) return 'Explained by none of the likely causes';
  const [first, second] = by.map((cause) => causePhrase(cause, electronic));
  return second ? `Explained neither by ${first} nor by ${second}` : `Not explained by ${first}`;
}

/** What none of the causes in question explains, in words. */
export function unexplainedTrouble(
  { places, by }: Unexplained,
  { cassette, all }: Observed,
  electronic: boolean,
): UnexplainedTrouble {
  const shifts = places.reduce((sum, place) => sum + place.shifts, 0);
  const trouble = places.reduce((sum, place) => sum + place.trouble, 0);
  const others =
    by[0] === 'no-fault' ? `; of the ${figure(all.shifts - shifts)} others ${figure(all.trouble - trouble)} did` : '';
  return {
    places: places.map(({ cog, ...place }) => ({ ...place, teeth: cog === null ? null : cassette[cog] })),
    where: placesInWords(places, cassette),
    sentence: `${unexplainedBy(by, electronic)}: ${countsInWords(places, cassette)} went wrong, where ${foretoldInWords(places)}${others}.`,
    look: lookAtPlaces(places, { cassette, electronic, by }),
  };
}
