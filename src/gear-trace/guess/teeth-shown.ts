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
  return `${Math.round(100 * shareShown(shown))} % of its teeth show in the rides${but}.`;
}
