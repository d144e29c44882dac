import type { Bike, BikeSummary } from '../api/answers.ts';

const drivetrainOf = ({ chainrings, cassette, actuation }: Bike): string =>
  JSON.stringify([chainrings, cassette, actuation]);

/** The bikes among those that are here which a bike file describes: of its name and its drivetrain. */
export const knownBikes = <Known extends Pick<BikeSummary, 'bike'>>(
  described: Bike,
  bikes: readonly Known[],
): Known[] =>
  bikes.filter(({ bike }) => bike.name === described.name && drivetrainOf(bike) === drivetrainOf(described));

/** The first of them; undefined where there is none. */
export const knownBike = (described: Bike, bikes: readonly BikeSummary[]): BikeSummary | undefined =>
  knownBikes(described, bikes)[0];

/** What speaks against a bike file beside the bike that was chosen (null: a new one), in a sentence; null where nothing does. */
export function bikeFileDoubt(described: Bike, chosen: BikeSummary | null, all: readonly BikeSummary[]): string | null {
  if (chosen)
    return knownBike(described, [chosen]) ? null : `It is left out: everything goes to ${chosen.bike.name}, as chosen.`;
  if (knownBike(described, all)) return `${described.name} is here already; as chosen, this makes a second one.`;
  return all.some(({ bike }) => bike.name === described.name)
    ? `A bike called ${described.name} is here already, with another drivetrain. This makes a second one; to put the first right, change it on its page.`
    : null;
}
