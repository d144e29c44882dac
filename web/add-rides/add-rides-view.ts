import type { BikeSummary } from '../api/answers.ts';
import { listBikes } from '../api/bikes.ts';
import { fill, make } from '../dom/make.ts';
import { loadInto } from '../page/load-into.ts';
import { namePage } from '../page/name-page.ts';
import { viewHead } from '../page/view-head.ts';
import { go } from '../router/go.ts';
import type { View } from '../router/router.ts';
import { makeBikeChoice } from './bike-choice.ts';
import type { Chosen, Work } from './chosen.ts';
import { type SortedFiles, sortFiles } from './companion-files.ts';
import { companionList } from './companion-list.ts';
import { companionStep } from './companion-step.ts';
import { makeFileChoice } from './file-choice.ts';
import { type Fleet, fleetOf } from './fleet.ts';
import { fleetStep } from './fleet-step.ts';
import { followFleet } from './fleet-work.ts';
import { makeGuessStep } from './guess-step.ts';
import { knownBike } from './known-bike.ts';
import { followWork } from './work-step.ts';

/** Add rides: choose the files, say whose they are, look the drivetrain over, watch them being worked through. */
export const addRidesView: View = ({ place, query, signal }) => {
  namePage('Add rides');
  const show = (bikes: readonly BikeSummary[]): void => {
    const start = (work: Work): void => {
      if (work.rides.length + work.adjustments.length === 0) go(`/bikes/${work.bikeId}`);
      else followWork({ place, work, signal, again: () => show(bikes) });
    };
    const again = (): void =>
      void listBikes(signal).then(
        (now) => show(now.bikes),
        () => show(bikes),
      );
    const startFleet: StepsPlan['startFleet'] = (fleet) => void followFleet({ place, fleet, signal, again });
    fill(place, head(), addSteps({ bikes, asked: query.get('bike'), start, startFleet, signal }));
  };
  loadInto(place, 'the bikes', signal, listBikes, ({ bikes }) => show(bikes));
};

const head = (): HTMLElement =>
  viewHead(
    'Add rides',
    'Ride logs with gear changes and cadence tell most. FIT, TCX, GPX and CSV are read, also packed with gzip or zip; what a file is, is told by its contents.',
  );

interface StepsPlan {
  readonly bikes: readonly BikeSummary[];
  /** The bike that the address asks for. */
  readonly asked: string | null;
  readonly start: (work: Work) => void;
  readonly startFleet: (fleet: Fleet) => void;
  readonly signal: AbortSignal;
}

const describedBy = ({ bikes }: SortedFiles): Chosen['described'] => {
  const [only] = bikes;
  return bikes.length === 1 && only.bike ? { file: only.file, bike: only.bike } : null;
};

/** The bike that is here which the files can only belong to: the one that a bike file describes; for adjustments alone the only one. */
function meantBike(sorted: SortedFiles, bikes: readonly BikeSummary[]): BikeSummary | undefined {
  const described = describedBy(sorted);
  if (described) return knownBike(described.bike, bikes);
  const { rides, adjustments } = sorted;
  return bikes.length === 1 && rides.length + sorted.bikes.length === 0 && adjustments.length > 0
    ? bikes[0]
    : undefined;
}

/** The steps from choosing files to starting the work on them. */
function addSteps({ bikes, asked, start, startFleet, signal }: StepsPlan): HTMLElement[] {
  const next = make('div', { class: 'add-next' });
  const guess = makeGuessStep({ signal, start });
  let sorted: SortedFiles = { rides: [], bikes: [], adjustments: [] };
  let turn = 0;
  const draw = (): void => {
    const { rides } = sorted;
    const adjustments = sorted.adjustments.filter(({ fault }) => fault === null).map(({ file }) => file);
    const bike = bikes.find(({ id }) => id === choice.bikeId()) ?? null;
    const chosen: Chosen = { rides, adjustments, described: describedBy(sorted) };
    const any = rides.length + sorted.adjustments.length + sorted.bikes.length > 0;
    const fleet = fleetOf(sorted, bikes);
    choice.element.hidden = !any || bikes.length === 0 || fleet !== null;
    if (fleet) {
      fill(next, fleetStep(fleet, startFleet));
      return;
    }
    fill(
      next,
      companionList(sorted, bike, bikes),
      rides.length > 0
        ? guess.show(chosen, bike)
        : any && companionStep({ chosen, bike, anyBike: bikes.length > 0, start }),
    );
  };
  const changed = async (): Promise<void> => {
    const mine = ++turn;
    const now = await sortFiles(files.chosen());
    if (mine !== turn || signal.aborted) return;
    const before = meantBike(sorted, bikes);
    sorted = now;
    const meant = meantBike(now, bikes);
    // once, and only where none is picked: what is picked by hand stays
    if (meant && meant !== before && choice.bikeId() === null) choice.pick(meant.id);
    draw();
  };
  const choice = makeBikeChoice(bikes, asked, draw);
  const files = makeFileChoice(() => void changed());
  draw();
  return [files.element, choice.element, next];
}
