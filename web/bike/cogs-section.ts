import { sum } from 'd3-array';
import { adjustmentWords } from '../../src/adjustments/parameter-words.ts';
import { skipsBeforeAndAfter } from '../../src/adjustments/skip-words.ts';
import { standingAdjustments } from '../../src/report/standing-adjustments.ts';
import { ridesOlderThan } from '../../src/report/words/rides-older-than.ts';
import { anySkips, SKIPS_MEANING } from '../../src/report/words/skip-sentences.ts';
import { soundRidesAmong } from '../../src/report/words/sound-rides-among.ts';
import type { AdjustmentReport, BikeDetail, Load } from '../api/answers.ts';
import { chartFigure } from '../charts/chart-figure.ts';
import type { ChartPlan } from '../charts/chart-plan.ts';
import { skipsByCogPlan } from '../charts/skips-by-cog.ts';
import { troubleByCogPlan } from '../charts/trouble-by-cog.ts';
import { freshId } from '../dom/fresh-id.ts';
import { fill, listen, make } from '../dom/make.ts';
import { day, shortDay } from '../words/dates.ts';
import { fileStem } from '../words/file-stem.ts';
import { skippedWords } from '../words/skipped-words.ts';
import { beforeAfterPlans } from './before-after-plans.ts';
import type { BikePage } from './bike-page.ts';
import { comparesLast } from './compares-last.ts';
import { keepPick } from './kept-picks.ts';

const loadTitles: Record<Load, string> = {
  soft: 'Soft on the pedals',
  firm: 'Firm on the pedals',
  unknown: 'Load not known',
};

/** Shifts of unknown load are left out where they are fewer than this share of all. */
const STRAY_SHARE = 0.1;

function loadsWorthShowing(perLoad: BikeDetail['perLoad']): BikeDetail['perLoad'] {
  const shiftsOf = (cogs: readonly { readonly shifts: number }[]): number => sum(cogs, ({ shifts }) => shifts);
  const all = sum(perLoad, ({ cogs }) => shiftsOf(cogs));
  return perLoad.filter(({ load, cogs }) => shiftsOf(cogs) > (load === 'unknown' ? all * STRAY_SHARE : 0));
}

/** What parts soft from firm, as a sentence to put before the summary. */
function splitWords(load: Load, splitNm: number | null): string {
  if (splitNm === null || load === 'unknown') return '';
  return load === 'soft'
    ? `Under ${Math.round(splitNm)} Nm at the crank, the middle of this bike’s shifts. `
    : `From ${Math.round(splitNm)} Nm at the crank. `;
}

/** All rides together, and that some are from before a fault began, or before the adjustment since which the bike is judged. Of a worn bike its skips stand first. */
function allRides({ bike, state }: BikeDetail, report: NonNullable<BikeDetail['report']>): ChartPlan[] {
  const old =
    state.sinceAdjustment && state.sinceAt !== null ? ridesOlderThan(report, state.sinceAt) : soundRidesAmong(report);
  const lead = old ? `${old} ` : '';
  const { cogs, skipsByCog } = report;
  const shifts = isJudged(report) && [
    troubleByCogPlan({
      title: 'Trouble by cog and direction',
      fileName: fileStem(bike.name, 'trouble by cog'),
      cogs,
      lead,
    }),
  ];
  const skips = anySkips(skipsByCog) && [
    skipsByCogPlan({
      fileName: fileStem(bike.name, 'skips by cog'),
      cogs: skipsByCog,
      lead: `${lead}${SKIPS_MEANING} ${ofOldParts(report)}`,
    }),
  ];
  const plans = skippedWords(state) ? [skips, shifts] : [shifts, skips];
  return plans.flatMap((some) => some || []);
}

/** That skips on parts which were replaced since are among them, and how it went before and after; empty where there are none. */
function ofOldParts({ adjustments }: NonNullable<BikeDetail['report']>): string {
  const replaced = adjustments.findLast(({ skipping }) => skipping !== null && skipping.before.skips > 0);
  if (!replaced?.skipping) return '';
  return `Those on parts that were replaced since are among them: ${adjustmentWords(replaced)} on ${day(replaced.at)}, ${skipsBeforeAndAfter(replaced.skipping)}. `;
}

const isJudged = ({ cogs }: Pick<NonNullable<BikeDetail['report']>, 'cogs'>): boolean =>
  cogs.some(({ shifts }) => shifts > 0);

interface Opening {
  readonly key: string;
  readonly word: string;
  readonly plans: () => ChartPlan[];
}

/** The ways in which the chart can be opened; only those that the data allow, none where no shift was judged and no skip seen. */
function openings({ bike, picks }: BikePage): Opening[] {
  const { report, perLoad, loadSplitNm } = bike;
  if (!report || !(isJudged(report) || anySkips(report.skipsByCog))) return [];
  const stem = (rest: string): string => fileStem(bike.bike.name, 'trouble by cog', rest);
  const ways: Opening[] = [{ key: 'all', word: 'All rides', plans: () => allRides(bike, report) }];
  const loads = loadsWorthShowing(perLoad);
  if (isJudged(report) && loads.some(({ load }) => load !== 'unknown'))
    ways.push({
      key: 'load',
      word: 'By load',
      plans: () =>
        loads.map(({ load, cogs }) =>
          troubleByCogPlan({
            title: loadTitles[load],
            fileName: stem(load),
            cogs,
            lead: splitWords(load, loadSplitNm),
          }),
        ),
    });
  const compared = comparable(report);
  if (compared.length > 0)
    ways.push({
      key: 'adjustment',
      word: 'Before and after',
      plans: () =>
        beforeAfterPlans(compared[pickedAdjustment(picks, compared.length)], bike.bike.name, isJudged(report)),
    });
  return ways;
}

/** The adjustments of which before and after can be drawn. */
const comparable = (report: NonNullable<BikeDetail['report']>): AdjustmentReport[] =>
  standingAdjustments(report).filter((made) => beforeAfterPlans(made, '', isJudged(report)).length > 0);

/** Place of the adjustment that is compared across: the one picked, else the last. */
function pickedAdjustment(picks: BikePage['picks'], count: number): number {
  const picked = picks.get('adjustment') ?? '';
  return /^\d{1,6}$/.test(picked) && Number(picked) < count ? Number(picked) : count - 1;
}

/** Which adjustment to compare across; null where there is only one. */
function adjustmentPicker({ bike, picks }: BikePage, changed: () => void): HTMLElement | null {
  const made = bike.report ? comparable(bike.report) : [];
  if (made.length < 2) return null;
  const id = freshId('adjustment');
  const chosen = pickedAdjustment(picks, made.length);
  const select = make(
    'select',
    { id, 'data-keep': 'adjustment-picker' },
    ...made.map((one, i) =>
      make('option', { value: i, selected: i === chosen }, `${shortDay(one.at)}: ${adjustmentWords(one)}`),
    ),
  );
  listen(select, {
    change: () => {
      keepPick(picks, 'adjustment', select.value);
      changed();
    },
  });
  return make('div', { class: 'field is-inline' }, make('label', { for: id }, 'Adjustment'), select);
}

/** Where the trouble shows: by cog and direction, opened by load, or before against after an adjustment. */
export function cogsSection(page: BikePage): HTMLElement | null {
  const ways = openings(page);
  if (ways.length === 0) return null;
  const { picks } = page;
  // what was put right is not what is shown first, nor is a comparison with nothing
  const first = page.bike.state.sinceAdjustment && comparesLast(page.bike.report) ? 'adjustment' : 'all';
  const chosen = (): Opening =>
    ways.find(({ key }) => key === picks.get('opening')) ?? ways.find(({ key }) => key === first) ?? ways[0];
  const charts = make('div', { class: 'chart-pair' });
  const picker = make('div', { class: 'chart-picker' });
  const draw = (): void => {
    const way = chosen();
    for (const button of buttons) button.setAttribute('aria-pressed', String(button.value === way.key));
    fill(picker, way.key === 'adjustment' && adjustmentPicker(page, drawCharts));
    drawCharts();
  };
  const drawCharts = (): void => {
    fill(
      charts,
      ...chosen()
        .plans()
        .map((plan) => chartFigure(plan)),
    );
  };
  const buttons = ways.map(({ key, word }) =>
    listen(make('button', { type: 'button', class: 'choice', value: key, 'data-keep': `opening-${key}` }, word), {
      click: () => {
        keepPick(picks, 'opening', key);
        draw();
      },
    }),
  );
  draw();
  return make(
    'section',
    { 'aria-labelledby': 'where' },
    make(
      'div',
      { class: 'section-head' },
      make('h2', { id: 'where' }, 'Where it shows'),
      ways.length > 1 && make('div', { class: 'row', role: 'group', 'aria-label': 'Open the chart by' }, ...buttons),
    ),
    make('div', { class: 'panel' }, picker, charts),
  );
}
