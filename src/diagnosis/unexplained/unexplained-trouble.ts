import { figure } from '../../numeric/figure.ts';
import { causePhrase } from '../cause-words.ts';
import type { Cause } from '../causes.ts';
import type { UnexplainedTrouble } from '../diagnosis.ts';
import type { Observed } from '../observed.ts';
import type { Unexplained } from './find-unexplained.ts';
import { lookAtPlaces } from './look-at-places.ts';
import { countsInWords, foretoldInWords, placesInWords } from './place-words.ts';

/** What does not explain it. */
const unexplainedBy = (cause: Cause, electronic: boolean): string =>
  cause === 'no-fault' ? 'Explained by no single cause' : `Not explained by ${causePhrase(cause, electronic)}`;

/** What is left unexplained, in words. */
export function unexplainedTrouble(
  { places, by }: Unexplained,
  { cassette, all }: Observed,
  electronic: boolean,
): UnexplainedTrouble {
  const shifts = places.reduce((sum, place) => sum + place.shifts, 0);
  const trouble = places.reduce((sum, place) => sum + place.trouble, 0);
  const others =
    by === 'no-fault'
      ? `; of the ${figure(all.shifts - shifts)} others ${all.trouble === trouble ? 'none' : figure(all.trouble - trouble)} did`
      : '';
  return {
    places: places.map(({ cog, ...place }) => ({ ...place, teeth: cog === null ? null : cassette[cog] })),
    where: placesInWords(places, cassette),
    sentence: `${unexplainedBy(by, electronic)}: ${countsInWords(places, cassette)} went wrong, where ${foretoldInWords(places)}${others}.`,
    look: lookAtPlaces(places, { cassette, electronic, by }),
  };
}
