import type { BikeSummary } from '../api/answers.ts';
import { drivetrainLine } from '../words/drivetrain-words.ts';
import type { BikeFile, SortedFiles } from './companion-files.ts';
import { bikeFileDoubt } from './known-bike.ts';
import { understoodList } from './understood-list.ts';

const tooMany = 'Only one bike can be added at a time: take out all bike files but one.';

/** What is wrong with a bike file, alone or beside the others and what was chosen; null: nothing. */
function bikeFault(
  { bike, fault }: BikeFile,
  alone: boolean,
  chosen: BikeSummary | null,
  all: readonly BikeSummary[],
): string | null {
  if (!bike) return fault;
  return alone ? bikeFileDoubt(bike, chosen, all) : tooMany;
}

/** What was understood of the bike and adjustments files among those chosen; null where there is none. */
export function companionList(
  { bikes, adjustments }: SortedFiles,
  chosen: BikeSummary | null,
  all: readonly BikeSummary[],
): HTMLElement | null {
  const alone = bikes.length === 1;
  return understoodList([
    ...bikes.map((one) => ({
      name: one.file,
      understood: one.bike ? [`A bike file: ${one.bike.name}, ${drivetrainLine(one.bike)}`] : [],
      notUnderstood: [bikeFault(one, alone, chosen, all)].filter((said) => said !== null),
    })),
    ...adjustments.map(({ name }) => ({ name, understood: ['Adjustments for the bike’s log'], notUnderstood: [] })),
  ]);
}
