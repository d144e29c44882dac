import type { Bike } from '../../drivetrain/bike.ts';
import { listed } from '../../numeric/listed.ts';

/** Teeth of a bike as rides show them, in its order; null where they do not. An empty list of rings: they are not in question. */
export interface ShownTeeth {
  readonly chainrings: readonly (number | null)[];
  readonly cassette: readonly (number | null)[];
}

/** The share of the teeth in question that show, 0 to 1. */
export function shareShown({ chainrings, cassette }: ShownTeeth): number {
  const all = [...chainrings, ...cassette];
  return all.filter((teeth) => teeth !== null).length / all.length;
}

/**
 * That share in words, with the rings and cogs that do not show by their teeth in the bike.
 *
 * @example teethShownWords(bike, { chainrings: [], cassette: [11, 13, null] })
 *   // '67 % of its teeth show in the rides, those of the cog of 15 do not.'
 */
export function teethShownWords(bike: Pick<Bike, 'chainrings' | 'cassette'>, shown: ShownTeeth): string {
  const unseen = (['chainrings', 'cassette'] as const).map((part) =>
    bike[part].filter((_, i) => shown[part][i] === null),
  );
  const names = unseen.flatMap((teeth, part) => {
    const noun = part === 0 ? 'ring' : 'cog';
    return teeth.length === 0 ? [] : [`the ${noun}${teeth.length === 1 ? '' : 's'} of ${listed(teeth)}`];
  });
  const but = names.length === 0 ? '' : `, those of ${listed(names)} do not`;
  const share = shareShown(shown);
  return `${share === 1 ? 'all' : `${Math.round(100 * share)} %`} of its teeth show in the rides${but}.`;
}

/** Says of cogs that were asked for and do not show why that may be, with a space before; empty where there are none. */
export function neverReachedWords(askedFor: readonly number[]): string {
  if (askedFor.length === 0) return '';
  const [cogs, them, they] = askedFor.length === 1 ? ['cog', 'it', 'it'] : ['cogs', 'them', 'they'];
  return ` The ${cogs} of ${listed(askedFor)} ${askedFor.length === 1 ? 'was' : 'were'} asked for: the chain hardly drove on ${them}, or never reached ${them}, so ${they} stand${askedFor.length === 1 ? 's' : ''} as recorded.`;
}
