import type { Bike, BikeSummary } from '../api/answers.ts';

/**
 * What to say of a new name that another bike has already: in every list names alone tell bikes apart. Null where none has it, and where the
 * name is not new: two bikes called alike already can be changed all the same.
 */
export function nameTaken(
  was: Pick<BikeSummary, 'id' | 'bike'>,
  { name }: Pick<Bike, 'name'>,
  bikes: readonly Pick<BikeSummary, 'id' | 'bike'>[],
): string | null {
  if (name === was.bike.name || !bikes.some(({ id, bike }) => id !== was.id && bike.name === name)) return null;
  return `Another bike is called “${name}” already. Give this one a name of its own.`;
}
