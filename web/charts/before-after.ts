import { scaleLinear } from 'd3-scale';
import type { TroubleCount } from '../../src/adjustments/compare-rates.ts';
import type { SkipCount } from '../../src/adjustments/count-skips.ts';
import { wentWrong } from '../../src/adjustments/end-cog-count.ts';
import { percent } from '../../src/numeric/percent.ts';
import { poissonInterval } from '../../src/numeric/poisson-interval.ts';
import { wilsonInterval } from '../../src/numeric/wilson-interval.ts';
import { comparedByDirection } from '../../src/report/words/by-direction.ts';
import type { AdjustmentReport } from '../api/answers.ts';
import { makeSvg } from '../dom/make.ts';
import { percentFigure } from '../words/numbers.ts';

const WIDTH_PX = 260;
const LABEL_PX = 52;
const FIGURE_PX = 48;
const ROW_PX = 28;
const HEAD_PX = 22;
const FOOT_PX = 14;

type Rate = Pick<AdjustmentReport['before'], 'troubleRate' | 'low' | 'high'>;

/** What is compared: all shifts, or those of one direction or onto one cog, which have a name then. */
interface Pair {
  readonly name: string | null;
  readonly before: Rate;
  readonly after: Rate;
}

const rateOf = ({ trouble, shifts }: TroubleCount): Rate =>
  shifts === 0
    ? { troubleRate: null, low: 0, high: 1 }
    : { troubleRate: trouble / shifts, ...wilsonInterval(trouble, shifts) };

type EndCount = NonNullable<AdjustmentReport['endCog']>['before'];

const rateOfEnd = (count: EndCount): Rate => rateOf({ trouble: wentWrong(count), shifts: count.shifts });

const skipsAnHour = ({ skips, hours }: SkipCount): Rate => {
  const { low, high } = poissonInterval(skips);
  return { troubleRate: skips / hours, low: low / hours, high: high / hours };
};

/** Of a new chain or cassette the skips an hour, on an axis of their own; null where none were seen, or nothing was ridden on one side. */
function skipsPair({ skipping }: AdjustmentReport): Pair | null {
  if (!skipping || skipping.before.hours === 0 || skipping.after.hours === 0) return null;
  const { before, after } = skipping;
  if (before.skips + after.skips === 0) return null;
  return { name: 'Skips an hour', before: skipsAnHour(before), after: skipsAnHour(after) };
}

/** What is drawn, up to which rate, and how a rate is written and said. */
interface Shown {
  readonly pairs: readonly Pair[];
  readonly top: number;
  readonly writes: (rate: number) => string;
  readonly says: (rate: number) => string;
}

function shownOf(compared: AdjustmentReport, commonTop: number): Shown {
  const skips = skipsPair(compared);
  if (!skips)
    return {
      pairs: pairsOf(compared),
      top: commonTop,
      writes: percentFigure,
      says: (rate) => `${percent(rate)} trouble`,
    };
  const top = Math.max(1, skips.before.high, skips.after.high);
  const writes = (rate: number): string => (rate > 0 && rate < 10 ? rate.toFixed(1) : String(Math.round(rate)));
  return { pairs: [skips], top, writes, says: writes };
}

/** All shifts together; each direction for itself where the work moves one direction alone, and of a limit screw its end cog, as the sentence beside it tells. */
function pairsOf(compared: AdjustmentReport): Pair[] {
  const { endCog } = compared;
  if (endCog)
    return [{ name: `Onto the ${endCog.teeth}`, before: rateOfEnd(endCog.before), after: rateOfEnd(endCog.after) }];
  const ways = comparedByDirection(compared);
  if (!ways) return [{ name: null, before: compared.before, after: compared.after }];
  return ways.map(({ direction, before, after }) => ({
    name: direction === 'to-larger' ? 'To larger cogs' : 'To smaller cogs',
    before: rateOf(before),
    after: rateOf(after),
  }));
}

/** The trouble that fills the axis which these comparisons share: the highest of any interval. */
export const topOfAll = (adjustments: readonly AdjustmentReport[]): number =>
  Math.max(
    0.05,
    ...adjustments
      .filter((compared) => skipsPair(compared) === null)
      .flatMap(pairsOf)
      .flatMap(({ before, after }) => [before, after])
      .map(({ troubleRate, high }) => (troubleRate === null ? 0 : high)),
  );

/** The scale at the foot: what its ends are, and what the bars mean. */
function scaleWords({ top, writes }: Shown, y: number): SVGElement[] {
  const [left, right] = [LABEL_PX, WIDTH_PX - FIGURE_PX];
  const at = (x: number, anchor: string, words: string): SVGElement =>
    makeSvg('text', { class: 'count', x, y, 'text-anchor': anchor }, words);
  return [
    at(left, 'start', writes(0)),
    at((left + right) / 2, 'middle', 'bar: 95\u00a0%'),
    at(right, 'end', writes(top)),
  ];
}

/** Trouble before and after one adjustment, as two intervals on one axis, for each direction where it moves one alone; `commonTop` is the share that fills it. Of a new chain its skips. */
export function beforeAfter(compared: AdjustmentReport, commonTop: number): SVGSVGElement {
  const shown = shownOf(compared, commonTop);
  const { pairs, top, writes } = shown;
  const x = scaleLinear([0, top], [LABEL_PX, WIDTH_PX - FIGURE_PX]).clamp(true);
  const line = (name: string, period: Rate, y: number): SVGElement[] => {
    const rate = period.troubleRate;
    return [
      makeSvg('text', { x: 0, y: y + 4 }, name),
      makeSvg('path', { class: 'base', d: `M${LABEL_PX} ${y}H${WIDTH_PX - FIGURE_PX}` }),
      ...(rate === null
        ? []
        : [
            makeSvg('path', {
              class: `interval is-${name.toLowerCase()}`,
              d: `M${x(period.low)} ${y}H${x(period.high)}`,
            }),
            name === 'Before'
              ? makeSvg('rect', { class: 'is-before', x: x(rate) - 4.5, y: y - 4.5, width: 9, height: 9 })
              : makeSvg('circle', { class: 'is-after', cx: x(rate), cy: y, r: 5 }),
          ]),
      makeSvg('text', { x: WIDTH_PX, y: y + 4, 'text-anchor': 'end' }, rate === null ? 'none' : writes(rate)),
    ];
  };
  const headPx = pairs.some(({ name }) => name !== null) ? HEAD_PX : 0;
  const pairPx = headPx + 2 * ROW_PX + 8;
  return makeSvg(
    'svg',
    {
      class: 'chart before-after',
      viewBox: `0 0 ${WIDTH_PX} ${pairs.length * pairPx + FOOT_PX}`,
      role: 'img',
      'aria-label': pairs.map((pair) => inWords(pair, shown)).join('. '),
    },
    ...pairs.flatMap(({ name, before, after }, i) => [
      ...(name === null ? [] : [makeSvg('text', { x: 0, y: i * pairPx + 16 }, name)]),
      ...line('Before', before, i * pairPx + headPx + 18),
      ...line('After', after, i * pairPx + headPx + 18 + ROW_PX),
    ]),
    ...scaleWords(shown, pairs.length * pairPx + FOOT_PX - 4),
  );
}

function inWords({ name, before, after }: Pair, { says }: Shown): string {
  const said = ({ troubleRate }: Rate): string => (troubleRate === null ? 'no shift judged' : says(troubleRate));
  return `${name === null ? '' : `${name}. `}Before: ${said(before)}; after: ${said(after)}`;
}
