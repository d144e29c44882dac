import type { Suggestion } from '../../diagnosis/diagnosis.ts';
import type { Warning } from '../../errors/warning.ts';
import { areApart } from '../../gear-trace/belonging/rides-apart.ts';
import { ringsUnclear } from '../../gear-trace/guess/unrecorded-rings.ts';
import { utcDay } from '../../numeric/moment-words.ts';
import { positionsForTeeth } from '../../ride-log/finish-ride.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import type { BikeRide } from '../ride-report-schema.ts';
import { sizeWord } from './cog-off.ts';
import { cogOffStep } from './cog-off-step.ts';
import type { HeldBackCode } from './held-back-codes.ts';
import { instead } from './instead.ts';
import type { SetAside } from './set-aside.ts';

/** Why no verdict is drawn from the shifts, and what is to be done first. */
export interface HeldBack {
  readonly code: HeldBackCode;
  /** In a few words. */
  readonly headline: string;
  readonly sentence: string;
  /** The next step for it, with the cautions of the one that it stands for. */
  readonly step: (suggestion: Suggestion, electronic: boolean) => Suggestion;
}

/** A ride with why its shifts are not weighed; null where they are. */
interface AsideRide {
  readonly ride: Pick<BikeRide, 'start' | 'gearSource' | 'leftOut' | 'warnings'>;
  readonly why: SetAside | null;
}

/**
 * Why no verdict is drawn from the shifts of a bike's rides: nobody knows what they were ridden on, or the newest of them cannot be weighed.
 * Null where one is drawn. Rides that cannot be weighed with newer ones after them do not hold it back.
 */
export function heldBack(bikeNotes: readonly Warning[], rides: readonly AsideRide[]): HeldBack | null {
  if (ringsUnclear(bikeNotes)) return ringsHeldBack;
  if (areApart(bikeNotes)) return apartHeldBack;
  const telling = rides.filter(({ ride }) => ride.leftOut === null && ride.gearSource === 'recorded');
  if (telling.length === 0 && rides.some(namesPositions)) return positionsHeldBack;
  const order = telling.every(isDated) ? [...telling].sort((a, b) => startMs(a) - startMs(b)) : telling;
  const allAside = telling.every(({ why }) => why !== null);
  const newest = order.at(-1);
  if (!newest?.why || (!allAside && (newest.why.code === 'speed-unit' || !telling.every(isDated)))) return null;
  return byRide(newest.why, firstOfLast(order, newest.why.code));
}

const namesPositions = ({ ride }: AsideRide): boolean => ride.warnings.some(({ code }) => code === positionsForTeeth);
const startMs = ({ ride }: AsideRide): number => Date.parse(ride.start);
const isDated = (one: AsideRide): boolean => hasClock(startMs(one));

/** The earliest of the newest rides that are set aside for the same reason, as a day; null without a date. */
function firstOfLast(order: readonly AsideRide[], code: SetAside['code']): string | null {
  const before = order.findLastIndex(({ why }) => why?.code !== code);
  const first = order[before + 1];
  return first && isDated(first) ? utcDay(first.ride.start) : null;
}

function byRide(why: SetAside, since: string | null): HeldBack {
  switch (why.code) {
    case 'speed-unit':
      return unitHeldBack;
    case 'another-cassette':
      return cassetteHeldBack(utcDay(why.changedAt));
    case 'other-cogs':
      return otherCogsHeldBack;
    case 'other-steps':
      return otherStepsHeldBack;
    case 'one-cog-off': {
      const size = sizeWord(why.cogs);
      return {
        code: why.code,
        headline: `The chain stands one cog ${size} than asked for`,
        sentence: `${since ? `Since the ride of ${since} the` : 'The'} chain stands one cog ${size} than the one asked for, all ride long. That is indexing off by a whole cog, or a recorder that counts the cogs wrongly; no limit screw is at fault for it.`,
        step: (suggestion, electronic) => instead(suggestion, cogOffStep(why, electronic)),
      };
    }
  }
}

/** How it goes on once what holds the verdict back is put right. */
const WEIGHED_ANEW = 'Look again then: the same rides are weighed anew, and need not be ridden again.';
const READ_ANEW = 'Read the rides again then; they need not be ridden again.';

const ringsHeldBack: HeldBack = {
  code: 'rings-unclear',
  headline: 'On how many rings it was pedalled is not known',
  sentence:
    'No verdict is drawn from the shifts: on how many rings the bike was pedalled is not known, so they cannot be told from changes of ring.',
  step: (suggestion) =>
    instead(suggestion, {
      steps: [
        'Turn nothing yet: on how many rings the bike was pedalled is not known, so its shifts cannot be told from changes of ring.',
      ],
      start: 'Describe the bike: write down all its rings and cogs.',
      verify: WEIGHED_ANEW,
    }),
};

const apartHeldBack: HeldBack = {
  code: 'rides-apart',
  headline: 'These rides do not look like those of one bike',
  sentence:
    'No verdict is drawn: these rides do not look like those of one bike, and the drivetrain guessed from them together is likely that of none.',
  step: (suggestion) =>
    instead(suggestion, {
      steps: ['Turn nothing by this report: it mixes the rides of several bikes.'],
      start: 'Give the rides of each bike by themselves, or describe the bike and leave out the rides of others.',
      verify: WEIGHED_ANEW,
    }),
};

const positionsHeldBack: HeldBack = {
  code: 'positions-for-teeth',
  headline: 'Its gear changes name positions, not teeth',
  sentence:
    'No shift can be judged: these rides hold no gear changes that can be read, since their records name the positions of cogs in place of their teeth.',
  step: (suggestion) =>
    instead(suggestion, {
      steps: ['Turn nothing by this report: its gear changes could not be read.'],
      start: 'Write the teeth of each cog in place of its position.',
      verify: READ_ANEW,
    }),
};

const unitHeldBack: HeldBack = {
  code: 'speed-unit',
  headline: 'The speed is not in metres a second',
  sentence:
    'No verdict is drawn: the speed of these rides is not in metres a second, so fast riding is missing from them and what is left may look better than it is.',
  step: (suggestion) =>
    instead(suggestion, {
      steps: ['Turn nothing by this report: put the speed right first.'],
      start: 'Bring the column of speed to metres a second, as the note at each ride says.',
      verify: READ_ANEW,
    }),
};

const otherCogsHeldBack: HeldBack = {
  code: 'other-cogs',
  headline: 'The rides name other cogs than the bike',
  sentence:
    'No verdict is drawn: these rides name other cogs than the bike as described has. With wrong teeth sound shifts look late, missed or overshot.',
  step: (suggestion) =>
    instead(suggestion, {
      steps: ['Turn nothing by this report: put right first which cogs the bike has.'],
      start:
        "Count the teeth on the bike. Where they are those that the note at each ride names, describe the bike with them. Where they are as described, the rides are another bike's, or the recorder's cassette is set wrongly.",
      verify: WEIGHED_ANEW,
    }),
};

const otherStepsHeldBack: HeldBack = {
  code: 'other-steps',
  headline: 'The rides show other cogs than the bike as described',
  sentence:
    'No verdict is drawn: the steps between the gears that these rides show are not those of the cogs that the bike as described has. With wrong teeth sound shifts look late, missed or overshot.',
  step: (suggestion) =>
    instead(suggestion, {
      steps: ['Turn nothing by this report: put right first which cogs the bike has.'],
      start:
        "Count the teeth on the bike. Where they are not as described, describe the bike with them, and set the recorder's cassette to them too. Where they are, the rides are another bike's, or its sensor of cadence or speed reads wrong.",
      verify: WEIGHED_ANEW,
    }),
};

const cassetteHeldBack = (day: string): HeldBack => ({
  code: 'another-cassette',
  headline: 'The bike as described has the old cassette',
  sentence: `No verdict is drawn: the cassette was changed on ${day}, the rides since name other cogs, and the bike as described still has those of before.`,
  step: (suggestion) =>
    instead(suggestion, {
      steps: ['Turn nothing by this report: it is about a cassette that is no longer on the bike.'],
      start: `Describe the bike with the cogs that it has now, and give the rides of before ${day} to another bike with those that it had.`,
      verify: WEIGHED_ANEW,
    }),
});
