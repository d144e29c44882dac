import { describe, expect, it } from 'vitest';
import { causeBars } from '../../../src/report/chart-data/cause-bars.ts';
import { rideStrip } from '../../../src/report/chart-data/ride-strip.ts';
import { rideTrend } from '../../../src/report/chart-data/ride-trend.ts';
import { beforeAfterHeightPx, drawBeforeAfterByCog } from '../../../src/report/charts/before-after-by-cog-chart.ts';
import { causeChartHeightPx, drawCauses } from '../../../src/report/charts/cause-chart.ts';
import type { ChartSvg } from '../../../src/report/charts/chart-frame.ts';
import { drawLateralError } from '../../../src/report/charts/lateral-error-chart.ts';
import { drawRideStrip } from '../../../src/report/charts/ride-strip-chart.ts';
import { drawRideTrend } from '../../../src/report/charts/ride-trend-chart.ts';
import { drawSkipsBeforeAfter, drawSkipsByCog } from '../../../src/report/charts/skips-by-cog-chart.ts';
import { drawTroubleByCog } from '../../../src/report/charts/trouble-by-cog-chart.ts';
import type { CogTrouble } from '../../../src/report/cog-trouble.ts';
import { skipped } from '../made-skips.ts';
import { sampleBike, sampleReport } from '../sample-report.ts';
import { drawChart, marks, rowsOf } from './draw-chart.ts';

const report = sampleReport();
const lateral = report.diagnosis.lateralErrorMm ?? [];
const strip = rideStrip(report.rides[0], sampleBike.cassette);
const sizes = [
  { widthPx: 340, heightPx: 320 },
  { widthPx: 860, heightPx: 320 },
];

const charts: [string, (svg: ChartSvg, size: (typeof sizes)[number]) => void][] = [
  ['trouble by cog', (svg, size) => drawTroubleByCog(svg, report.cogs, size)],
  [
    'trouble by cog, before and after',
    (svg, size) => drawBeforeAfterByCog(svg, { before: report.cogs, after: report.cogs }, size),
  ],
  ['before and after of nothing', (svg, size) => drawBeforeAfterByCog(svg, { before: [], after: [] }, size)],
  ['causes', (svg, size) => drawCauses(svg, causeBars(report), size)],
  ['trend', (svg, size) => drawRideTrend(svg, rideTrend(report), size)],
  ['lateral error', (svg, size) => drawLateralError(svg, lateral, size)],
  [
    'skips by cog',
    (svg, size) => drawSkipsByCog(svg, [skipped(15, 9, 2), skipped(18, 1, 0.02), skipped(21, 0, 0)], size),
  ],
  ['ride strip', (svg, size) => drawRideStrip(svg, strip, size)],
  ['trouble by cog of nothing', (svg, size) => drawTroubleByCog(svg, [], size)],
  [
    'skips before and after',
    (svg, size) =>
      drawSkipsBeforeAfter(
        svg,
        { before: [skipped(15, 9, 2), skipped(18, 1, 3)], after: [skipped(15, 0, 1), skipped(18, 0, 0)] },
        size,
      ),
  ],
  ['skips by cog of nothing', (svg, size) => drawSkipsByCog(svg, [], size)],
  ['causes of nothing', (svg, size) => drawCauses(svg, [], size)],
  ['trend of nothing', (svg, size) => drawRideTrend(svg, { rides: [], adjustments: [] }, size)],
  ['lateral error of nothing', (svg, size) => drawLateralError(svg, [], size)],
  [
    'ride strip of nothing',
    (svg, size) =>
      drawRideStrip(svg, { durationS: 0, cassette: [11, 13], actual: [], commanded: [], lost: [], events: [] }, size),
  ],
];

describe.each(charts)('%s', (_, draw) => {
  it.each(sizes)('draws finite numbers inside its $widthPx px, and the same again', (size) => {
    const svg = drawChart((selection) => draw(selection, size));
    const once = svg.outerHTML;
    expect(once).not.toMatch(/NaN|undefined|Infinity|null/);
    expect(svg.getAttribute('viewBox')).toBe(`0 0 ${size.widthPx} ${size.heightPx}`);
    const again = drawChart((selection) => {
      draw(selection, size);
      draw(selection, size);
    });
    expect(again.outerHTML).toBe(once);
    for (const [, x] of once.matchAll(/translate\(([-\d.]+)/g)) {
      expect(Number(x)).toBeGreaterThanOrEqual(-1);
      expect(Number(x)).toBeLessThanOrEqual(size.widthPx);
    }
  });

  it('names its axes', () => {
    const svg = drawChart((selection) => draw(selection, sizes[1]));
    expect(svg.querySelectorAll('.axis-name').length).toBeGreaterThan(0);
  });
});

const cog = (change: Partial<CogTrouble>): CogTrouble => ({
  teeth: 15,
  direction: 'to-larger',
  shifts: 20,
  troubleRate: 0.25,
  low: 0.1,
  high: 0.5,
  ...change,
});

describe('trouble by cog', () => {
  it('has a point for each rated cog and direction, with its reading', () => {
    const svg = drawChart((selection) => drawTroubleByCog(selection, report.cogs, sizes[1]));
    const points = marks(svg).filter((mark) => mark.querySelector('.point'));
    expect(points.length).toBe(report.cogs.filter((row) => row.troubleRate !== null).length);
    expect(marks(svg)[0].querySelector('title')?.textContent).toMatch(/^Onto \d+ teeth to-/);
  });

  it('shows few shifts as faint, none as no point but a count of 0, and says when there are none at all', () => {
    const svg = drawChart((selection) =>
      drawTroubleByCog(selection, [cog({ shifts: 3 }), cog({ teeth: 17, shifts: 0, troubleRate: null })], sizes[1]),
    );
    expect(marks(svg).map((mark) => mark.getAttribute('class'))).toEqual(['mark to-larger few']);
    expect([...svg.querySelectorAll('.count')].map((count) => count.textContent)).toEqual(['3', '0']);
    const none = drawChart((selection) =>
      drawTroubleByCog(selection, [cog({ shifts: 0, troubleRate: null, low: 0, high: 1 })], sizes[1]),
    );
    expect(none.querySelector('.empty-note')?.textContent).toBe('No shift was judged');
  });

  it('ends an interval that the axis cuts off in an arrow head, and says what it means', () => {
    const whole = cog({ shifts: 40, troubleRate: 0.1, low: 0.04, high: 0.23 });
    const cut = cog({ teeth: 11, shifts: 4, troubleRate: 0, low: 0, high: 0.49 });
    const heads = (...cogs: readonly CogTrouble[]) => {
      const svg = drawChart((selection) => drawTroubleByCog(selection, cogs, sizes[1]));
      const found = marks(svg).map((mark) => mark.querySelectorAll('.is-cut').length);
      return { found, said: svg.querySelector('.legend')?.textContent?.includes('reaches further') };
    };
    expect(heads(whole, cut)).toMatchObject({ found: [0, 1], said: true });
    expect(heads(whole)).toMatchObject({ found: [0], said: false });
    const ride = { label: '1', shifts: 3, troubleRate: 0, low: 0, high: 0.56 };
    const trend = drawChart((selection) => drawRideTrend(selection, { rides: [ride], adjustments: [] }, sizes[1]));
    expect(trend.querySelectorAll('.mark .is-cut')).toHaveLength(1);
  });

  it('tells directions apart by shape, not by colour alone', () => {
    const svg = drawChart((selection) =>
      drawTroubleByCog(selection, [cog({}), cog({ direction: 'to-smaller' })], sizes[1]),
    );
    const shapes = marks(svg).map((mark) => mark.querySelector('.point')?.getAttribute('d'));
    expect(shapes[0]).not.toBe(shapes[1]);
  });
});

describe('what went wrong beside the shifts', () => {
  it('has a mark and its count at the cog that a chain was lost past, or that it moved onto unasked', () => {
    const cogs = [
      cog({ teeth: 11, direction: 'to-smaller', shifts: 2, chainDrops: 3 }),
      cog({ teeth: 13, ghostShifts: 1 }),
      cog({ teeth: 13, direction: 'to-smaller', ghostShifts: 1 }),
    ];
    const svg = drawChart((selection) => drawTroubleByCog(selection, cogs, sizes[1]));
    expect(rowsOf(svg, 'drop')).toEqual(['3']);
    expect(rowsOf(svg, 'ghost')).toEqual(['2']);
    const said = marks(svg).map((mark) => mark.querySelector('title')?.textContent);
    expect(said).toContain('Past the 11: chain lost 3 times');
    expect(said).toContain('Onto 13 teeth unasked: 2 ghost shifts');
    expect(svg.querySelector('.legend')?.textContent).toContain('chain lost past the cog');
    expect(svg.querySelector('.legend')?.textContent).not.toContain('not sure');
    const quiet = drawChart((selection) => drawTroubleByCog(selection, [cog({})], sizes[1]));
    expect(quiet.querySelectorAll('.event').length).toBe(0);
  });

  it('stands as a bare count where its mark would run into the count of the next cog', () => {
    const many = Array.from({ length: 12 }, (_, i) => cog({ teeth: 10 + i, ghostShifts: 5 + i }));
    const draw = (size: (typeof sizes)[number]) => drawChart((selection) => drawTroubleByCog(selection, many, size));
    const [narrow, wide] = sizes.map(draw);
    const marked = (svg: SVGSVGElement): number => svg.querySelectorAll('.counts.ghost .mark path').length;
    expect([marked(narrow), marked(wide)]).toEqual([0, 12]);
    expect(rowsOf(narrow, 'ghost')).toEqual(rowsOf(wide, 'ghost'));
    // the row's own mark stays, and so does each count's reading
    expect(narrow.querySelectorAll('.counts.ghost path.point')).toHaveLength(1);
    expect(narrow.querySelectorAll('.counts.ghost title')).toHaveLength(12);
  });

  it('tells lost chains that are sure from those that are not', () => {
    const lost = (sureChainDrops: number) => {
      const cogs = [cog({ teeth: 11, direction: 'to-smaller', shifts: 9, chainDrops: 2, sureChainDrops })];
      const svg = drawChart((selection) => drawTroubleByCog(selection, cogs, sizes[1]));
      expect(svg.querySelector('.legend')?.textContent?.includes('?: not sure')).toBe(sureChainDrops < 2);
      const said = marks(svg).map((mark) => mark.querySelector('title')?.textContent);
      return [rowsOf(svg, 'drop')[0], said.find((one) => one?.includes('chain lost'))];
    };
    expect(lost(1)).toEqual(['1+1?', 'Past the 11: chain lost once and perhaps once more']);
    expect(lost(0)).toEqual(['2?', 'Past the 11: chain lost perhaps twice']);
    expect(lost(2)).toEqual(['2', 'Past the 11: chain lost twice']);
  });
});

describe('before and after by cog', () => {
  const was = [cog({ teeth: 51, shifts: 16, troubleRate: 1 }), cog({ teeth: 10, direction: 'to-smaller', shifts: 7 })];
  const is = [cog({ teeth: 51, shifts: 6 }), cog({ teeth: 10, direction: 'to-smaller', shifts: 5, troubleRate: 1 })];
  const none = (teeth: number) => cog({ teeth, shifts: 0, troubleRate: null });
  const draw = (widthPx: number) => {
    const data = { before: [...was, none(45)], after: [...is, none(45)] };
    const size = { widthPx, heightPx: beforeAfterHeightPx(data, widthPx) };
    return drawChart((selection) => drawBeforeAfterByCog(selection, data, size));
  };

  it('draws before and after beside one another, each direction by itself, with the shifts judged in either', () => {
    const svg = draw(340);
    expect(marks(svg).map((mark) => mark.getAttribute('class'))).toEqual([
      'mark to-larger before',
      'mark to-larger',
      'mark to-smaller before',
      'mark to-smaller',
    ]);
    const place = (mark: Element) => Number(/translate\(([-\d.]+)/.exec(mark.getAttribute('transform') ?? '')?.[1]);
    const [before, after] = marks(svg).map(place);
    expect(after - before).toBeGreaterThan(8);
    expect(rowsOf(svg, 'to-larger')).toEqual(['16', '6']);
    // what the counts are stands beside them; hollow and filled tell which time they are of
    const heads = [...svg.querySelectorAll('.counts')].map((row) => [
      row.querySelector('.count-name')?.textContent,
      row.classList.contains('before'),
    ]);
    expect(heads.slice(0, 2)).toEqual([
      ['judged', true],
      ['judged', false],
    ]);
    expect(rowsOf(svg, 'to-smaller')).toEqual(['7', '5']);
    const baselines = [...svg.querySelectorAll('.axis-name')].map((name) => name.textContent);
    expect(baselines.filter((name) => name?.startsWith('To '))).toHaveLength(2);
  });

  it('leaves out cogs onto which nothing was seen in either time', () => {
    const ticks = [...draw(860).querySelectorAll('.axis .tick text')].map((tick) => tick.textContent);
    expect(ticks).toContain('51');
    expect(ticks).not.toContain('45');
  });
});

describe('causes', () => {
  it('has one bar for each cause, as long as it is likely', () => {
    const bars = causeBars(report);
    const svg = drawChart((selection) =>
      drawCauses(selection, bars, { widthPx: 640, heightPx: causeChartHeightPx(bars.length) }),
    );
    const widths = [...svg.querySelectorAll('.bar')].map((bar) => Number(bar.getAttribute('width')));
    expect(widths.length).toBe(bars.length);
    expect(widths[0] / widths[1]).toBeCloseTo(bars[0].probability / bars[1].probability, 1);
  });
});

describe('lateral error', () => {
  it('gives every tick its sign but the one of no error', () => {
    const svg = drawChart((selection) => drawLateralError(selection, lateral, sizes[1]));
    const ticks = [...svg.querySelectorAll('.axis .tick text')].map((tick) => tick.textContent);
    expect(ticks).toContain('0');
    expect(ticks).not.toContain('+0.0');
    expect(ticks).toContain('+0.4');
  });
});

describe('trend', () => {
  it('marks the adjustment between the rides it was made between', () => {
    const trend = rideTrend(report);
    expect(trend.adjustments).toEqual([
      { beforeRide: 1, words: '2026-04-12 18:30 UTC: cable tension +2 clicks (anticlockwise, more tension)' },
    ]);
    const svg = drawChart((selection) => drawRideTrend(selection, trend, sizes[1]));
    const x = (selector: string) =>
      [...svg.querySelectorAll(selector)].map((mark) =>
        Number(/translate\(([-\d.]+)/.exec(mark.getAttribute('transform') ?? '')?.[1]),
      );
    // the mark lies within the plot, below the words over it
    const [, wedgeY] =
      /,([\d.]+)\)/.exec(svg.querySelector('.mark .adjusted-wedge')?.getAttribute('transform') ?? '') ?? [];
    const named = [...svg.querySelectorAll('.axis-name')].find(({ textContent }) => textContent?.startsWith('Trouble'));
    expect(Number(wedgeY) - 5).toBeGreaterThan(Number(named?.getAttribute('y')));
    const [first, second] = x('.mark.actual');
    const [made] = x('.mark.adjusted');
    expect(made).toBeGreaterThan(first);
    expect(made).toBeLessThan(second);
  });

  it('explains adjustments and faint rides only where there are any', () => {
    const full = rideTrend(report);
    const [ride] = full.rides;
    const said = (adjustments: typeof full.adjustments, shifts: number): string | null | undefined =>
      drawChart((selection) =>
        drawRideTrend(selection, { rides: [{ ...ride, shifts }], adjustments }, sizes[1]),
      ).querySelector('.legend')?.textContent;
    expect(said(full.adjustments, 3)).toMatch(/adjustment.*faint: under 5 shifts/);
    expect(said([], 5)).not.toMatch(/adjustment|faint/);
  });

  it('calls rides without a clock by their number', () => {
    const ride = { ...report.rides[0], start: '1970-01-01T00:00:10.000Z' };
    expect(rideTrend({ rides: [ride], adjustments: [] }).rides[0].label).toBe('ride 1');
  });
});

describe('ride strip', () => {
  it('draws commanded and actual cog and one mark for each thing that went wrong', () => {
    const svg = drawChart((selection) => drawRideStrip(selection, strip, sizes[1]));
    const { late, missed, overshot, ghostShifts, chainDrops, skips } = report.rides[0].counts;
    expect(marks(svg).length).toBe(late + missed + overshot + ghostShifts + chainDrops + skips);
    expect(svg.querySelector('.commanded-line')?.getAttribute('d')).toBeTruthy();
    const legend = [...svg.querySelectorAll('.legend text')].map((entry) => entry.textContent);
    expect(legend).toContain('cog asked for');
    expect(legend).toContain('ghost shift');
  });

  it('breaks the line where the cog is not known', () => {
    const svg = drawChart((selection) =>
      drawRideStrip(
        selection,
        {
          durationS: 100,
          cassette: [11, 13],
          actual: [
            { timeS: 0, teeth: 11 },
            { timeS: 40, teeth: null },
            { timeS: 60, teeth: 13 },
          ],
          commanded: [],
          lost: [],
          events: [],
        },
        sizes[1],
      ),
    );
    const path = [...svg.querySelectorAll('path.actual-line')].at(-1)?.getAttribute('d') ?? '';
    expect(path.match(/M/g)?.length).toBe(2);
  });

  it('marks the time without drive from a lost chain to the next cog that is named, and says what the mark means', () => {
    const startMs = Date.parse(report.rides[0].start);
    const at = (s: number): string => new Date(startMs + s * 1000).toISOString();
    const [drop] = report.rides[0].chainDrops;
    const teeth = [13, null, 15, null, 17];
    const ride = {
      ...report.rides[0],
      gears: teeth.map((one, i) => ({ at: at(100 * i), teeth: one })),
      chainDrops: [at(101), at(150)].map((moment) => ({ ...drop, at: moment })),
    };
    const data = rideStrip(ride, sampleBike.cassette);
    expect(data.lost).toEqual([{ fromS: 100, toS: 200 }]);
    const drawn = (strip: typeof data) => drawChart((selection) => drawRideStrip(selection, strip, sizes[1]));
    expect(drawn(data).querySelectorAll('rect.lost-band').length).toBe(1);
    expect(drawn(data).querySelector('.legend')?.textContent).toContain('drive lost');
    expect(drawn({ ...data, lost: [] }).querySelector('.legend')?.textContent).not.toContain('drive lost');
  });

  it('draws no commanded line where gears were not recorded', () => {
    expect(rideStrip({ ...report.rides[0], gearSource: 'inferred' }, sampleBike.cassette).commanded).toEqual([]);
  });
});
