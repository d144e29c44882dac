import { counted } from '../../src/numeric/counted.ts';
import type { BikeSummary, ReadFile } from '../api/answers.ts';
import { make } from '../dom/make.ts';
import { drivetrainLine } from '../words/drivetrain-words.ts';
import type { AdjustmentsFile, BikeFile, SortedFiles } from './companion-files.ts';
import { bikeFileDoubt } from './known-bike.ts';
import { understoodList } from './understood-list.ts';

const tooMany =
  'Only one bike can be added at a time from one folder: take out all bike files but one, or put each bike with its rides into a folder of its own.';

/** Of a broken file, which is not sent. */
const leftOut = (fault: string): string => `${fault} It is left out until it is put right.`;

/** What is wrong with a bike file, alone or beside the others and what was chosen; null: nothing. */
function bikeFault(
  { bike, fault }: BikeFile,
  alone: boolean,
  chosen: BikeSummary | null,
  all: readonly BikeSummary[],
): string | null {
  if (!bike) return fault && leftOut(fault);
  return alone ? bikeFileDoubt(bike, chosen, all) : tooMany;
}

/** What a file of adjustments holds. */
const adjustmentsRead = ({ file: { name }, count, fault }: AdjustmentsFile): ReadFile => ({
  name,
  understood: count === null ? [] : [`${counted(count, 'adjustment')} for the bike’s log`],
  notUnderstood: fault === null ? [] : [leftOut(fault)],
  remarks: [],
});

/** What was understood of the bike and adjustments files among those chosen, under a heading; null where there is none. */
export function companionList(
  { bikes, adjustments }: SortedFiles,
  chosen: BikeSummary | null,
  all: readonly BikeSummary[],
): HTMLElement | null {
  const alone = bikes.length === 1;
  const list = understoodList([
    ...bikes.map((one) => ({
      name: one.path,
      understood: one.bike ? [`A bike file: ${one.bike.name}, ${drivetrainLine(one.bike)}`] : [],
      notUnderstood: [bikeFault(one, alone, chosen, all)].filter((said) => said !== null),
      remarks: [],
    })),
    ...adjustments.map(adjustmentsRead),
  ]);
  const heading =
    adjustments.length === 0 ? 'Bike file' : bikes.length === 0 ? 'Adjustments' : 'Bike file and adjustments';
  return list && make('section', { class: 'add-found', 'aria-label': heading }, make('h2', {}, heading), list);
}
