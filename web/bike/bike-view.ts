import { getBike } from '../api/bikes.ts';
import { onChange } from '../api/changes.ts';
import { listRides } from '../api/rides.ts';
import { keepingFocus } from '../dom/keeping-focus.ts';
import { fill } from '../dom/make.ts';
import { ask } from '../page/ask.ts';
import { loadInto } from '../page/load-into.ts';
import { namePage } from '../page/name-page.ts';
import { newestOf } from '../page/newest-of.ts';
import { unlessRemoved } from '../page/nothing-there.ts';
import { soon } from '../page/soon.ts';
import type { View } from '../router/router.ts';
import { adjustmentsSection } from './adjustments-section.ts';
import { bikeHead } from './bike-head.ts';
import type { BikePage } from './bike-page.ts';
import { cogsSection } from './cogs-section.ts';
import { drivetrainSection } from './drivetrain-section.ts';
import { keptPicks } from './kept-picks.ts';
import { lateralSection } from './lateral-section.ts';
import { ridesSection } from './rides-section.ts';
import { type Section, SectionPlace } from './section-place.ts';
import { trendSection } from './trend-section.ts';
import { verdictSection } from './verdict-section.ts';

/** Sections in the order they stand. */
const sections: Readonly<Record<string, Section>> = {
  head: bikeHead,
  verdict: verdictSection,
  cogs: cogsSection,
  lateral: lateralSection,
  trend: trendSection,
  adjustments: adjustmentsSection,
  rides: ridesSection,
  drivetrain: drivetrainSection,
};

const LOST_ENTRY = 'An entry is open and not saved yet: what is filled in there would be lost.';

/** One bike: the verdict first, then what it rests on, then the logs to keep. */
export const bikeView: View = ({ place, parts, query, signal }) => {
  namePage('Bike');
  const picks = keptPicks(query);
  const places = new Map(Object.entries(sections).map(([key, section]) => [key, new SectionPlace(key, section)]));
  let shown = '';
  let page: BikePage | null = null;

  const load = newestOf(async (): Promise<Answers> => {
    const [bike, { rides, total }] = await Promise.all([
      getBike(parts.bikeId, signal),
      listRides(parts.bikeId, signal),
    ]);
    return { bike, rides, allRides: total };
  });
  const refresh = async (): Promise<void> => draw(await load());
  const log = async (parameter: string): Promise<void> => {
    const adjustments = places.get('adjustments')!;
    const { filledIn } = adjustments;
    if (filledIn && !(await ask('Begin a new entry?', LOST_ENTRY, 'Begin a new one', 'Keep what is filled in'))) {
      filledIn.scrollIntoView({ block: 'start' });
      filledIn.querySelector('select')?.focus({ preventScroll: true });
      return;
    }
    picks.set('log', parameter);
    if (page) adjustments.drawAnyway(page);
  };
  const draw = (answers: Answers): void => {
    const { bike } = answers;
    namePage(bike.bike.name);
    const drawn: BikePage = { ...answers, picks, refresh, log: (parameter) => void log(parameter) };
    page = drawn;
    const now = JSON.stringify(answers);
    if (now !== shown)
      keepingFocus(place, () => {
        for (const one of places.values()) one.draw(drawn);
      });
    shown = now;
    if (!place.contains(places.get('head')!.element))
      fill(place, ...[...places.values()].map(({ element }) => element));
  };
  loadInto(place, 'the bike', signal, load, draw);
  const refreshSoon = soon(() => unlessRemoved(place, 'the bike', refresh), signal);
  onChange(({ bikeId }) => {
    if (!bikeId || bikeId === parts.bikeId) refreshSoon();
  }, signal);
};

type Answers = Pick<BikePage, 'bike' | 'rides' | 'allRides'>;
