import { describe, expect, it } from 'vitest';
import { drawMoment } from '../../web/charts/moment/draw-moment.ts';
import { cutMoment } from '../../web/charts/moment/moment.ts';
import { linePath } from '../../web/charts/moment/moment-line.ts';
import { momentPlan } from '../../web/charts/moment/moment-plan.ts';
import { makeTrack, nearestSample, sampleFrom } from '../../web/charts/timeline/ride-track.ts';
import { drawChart } from '../report/charts/draw-chart.ts';
import { madeColumns } from './made-columns.ts';

const { timeS: seconds } = madeColumns(120);
const same = <Value>(value: Value): Value[] => seconds.map(() => value);
const columns = madeColumns(120, {
  commandedTeeth: seconds.map((s) => (s < 60 ? 18 : 21)),
  actualTeeth: seconds.map((s) => (s < 64 ? 18 : 21)),
});
const track = makeTrack(columns);
const facts = { rolloutMm: 2250, turns: null, lost: [] };

describe('cutMoment', () => {
  it('takes ten seconds before and twenty after', () => {
    const { samples } = cutMoment(track, 60, facts);
    expect(samples[0].s).toBe(-10);
    expect(samples[samples.length - 1].s).toBe(20);
    expect(samples.length).toBe(31);
  });

  it('has the turns that the shift was judged by, also where they lie beyond, but no arrival there', () => {
    const turns = { cleanUntilS: 2.2, lateUntilS: 24, doneS: 3.1 };
    const shown = cutMoment(track, 60, { ...facts, turns });
    expect(shown).toMatchObject({ cleanUntilS: 2.2, lateUntilS: 24, judgedAtS: 3.1 });
    expect(cutMoment(track, 60, { ...facts, turns: { ...turns, doneS: 21 } }).judgedAtS).toBeNull();
    expect(cutMoment(track, 60, facts)).toMatchObject({ cleanUntilS: null, lateUntilS: null, judgedAtS: null });
  });

  it('names the cog that speed and cadence point to', () => {
    const { samples } = cutMoment(track, 60, facts);
    expect(samples[0].ratioTeeth).toBeCloseTo(18, 6);
    expect(samples[12].askedTeeth).toBe(21);
    expect(samples[12].chainTeeth).toBe(18);
    expect(samples[16].chainTeeth).toBe(21);
  });

  it('marks where drive was lost, in the drawing and in words', () => {
    const lost = [{ fromS: 62, toS: 300 }];
    const moment = cutMoment(track, 60, { ...facts, lost });
    expect(moment.lost).toEqual([{ fromS: 2, toS: 20 }]);
    expect(moment.samples.map((sample) => sample.lost)).toEqual([...Array(12).fill(false), ...Array(19).fill(true)]);
    const svg = drawChart((selection) => drawMoment(selection, moment, { widthPx: 300, heightPx: 500 }, false));
    expect(svg.querySelectorAll('rect.lost-band').length).toBe(1);
    const readings = [...svg.querySelectorAll('.mark.second')].map((mark) => mark.textContent);
    expect(readings[11]).toContain('chain on 18');
    expect(readings[12]).toContain('drive lost');
  });

  it('points to no cog while nobody pedals', () => {
    const { samples } = cutMoment(makeTrack({ ...columns, cadenceRpm: same(0) }), 60, facts);
    expect(samples.every(({ ratioTeeth }) => Number.isNaN(ratioTeeth))).toBe(true);
  });
});

describe('drawMoment', () => {
  it('has every mark and band that it draws in its legend, and no other', () => {
    const legend = (turns: { cleanUntilS: number; lateUntilS: number; doneS: number } | null, isShift: boolean) => {
      const moment = cutMoment(track, 60, { ...facts, turns, toTeeth: 21 });
      const svg = drawChart((selection) => drawMoment(selection, moment, { widthPx: 600, heightPx: 500 }, isShift));
      const [entries, bands] = ['.legend text', 'rect.turns'].map((marks) => [...svg.querySelectorAll(marks)]);
      const words = entries.map(({ textContent }) => textContent);
      expect(words.slice(0, 3)).toEqual(['asked for', 'chain on', 'by speed and cadence']);
      expect(words.filter((word) => word?.startsWith('in time')).length).toBe(bands.length);
      return words.slice(3);
    };
    const turns = { cleanUntilS: 1, lateUntilS: 6, doneS: 3 };
    const [clean, late, there] = ['in time to be clean', 'in time to be late, not missed', 'judged to be there'];
    expect(legend(turns, true)).toEqual([clean, late, there]);
    expect(legend({ ...turns, cleanUntilS: 25, lateUntilS: 90 }, true)).toEqual([clean, there]);
    expect(legend(null, true)).toEqual([]);
    expect(legend(null, false)).toEqual([]);
  });

  it('marks the judged arrival on the row of the cog it came to', () => {
    const turns = { cleanUntilS: 1, lateUntilS: 6, doneS: 3 };
    const wedge = (toTeeth: number): number => {
      const moment = cutMoment(track, 60, { ...facts, turns, toTeeth });
      const svg = drawChart((selection) => drawMoment(selection, moment, { widthPx: 600, heightPx: 500 }, true));
      const mark = svg.querySelector('path.judged[transform*=","]:not(.legend *)') as Element;
      return Number(/,([-\d.]+)\)/.exec(mark.getAttribute('transform') ?? '')?.[1]);
    };
    expect(wedge(18) - wedge(21)).toBeGreaterThan(20);
  });

  const anchors = (cleanUntilS: number, lateUntilS: number): (string | null)[] => {
    const moment = cutMoment(track, 60, { ...facts, turns: { cleanUntilS, lateUntilS, doneS: null } });
    const svg = drawChart((selection) => drawMoment(selection, moment, { widthPx: 300, heightPx: 500 }, true));
    return [...svg.querySelectorAll('.turns-name')].map((name) => name.getAttribute('text-anchor'));
  };

  it('keeps the names of the turn limits apart where the legs turn fast', () => {
    expect(anchors(1, 3)).toEqual(['end', 'start']);
    expect(anchors(3, 12)).toEqual(['middle', 'middle']);
  });

  it('cuts off the turns that lie beyond the drawing', () => {
    const turnsOf = (cleanUntilS: number, lateUntilS: number | null) => {
      const moment = cutMoment(track, 60, { ...facts, turns: { cleanUntilS, lateUntilS, doneS: null } });
      const svg = drawChart((selection) => drawMoment(selection, moment, { widthPx: 600, heightPx: 500 }, true));
      const rects = [...svg.querySelectorAll('rect.turns')];
      const rights = rects.map((rect) => Number(rect.getAttribute('x')) + Number(rect.getAttribute('width')));
      return [
        rects.map((rect) => rect.getAttribute('class')),
        [...svg.querySelectorAll('.turns-name')].map((name) => name.textContent),
        Math.max(...rights),
      ];
    };
    const [clean, late] = ['turns is-clean', 'turns is-late'];
    const edge = 592;
    expect(turnsOf(16, 19)).toEqual([[clean, late], ['1.5', '5 turns'], expect.any(Number)]);
    expect(turnsOf(18, 24)).toEqual([[clean, late], ['1.5 turns'], edge]);
    expect(turnsOf(22, 40)).toEqual([[clean], [], edge]);
    expect(turnsOf(6, null)).toEqual([[clean], ['1.5 turns'], expect.any(Number)]);
  });

  it('begins the turns before an event whose record was written down late', () => {
    const drawn = (fromS: number): readonly (readonly [x: number, width: number])[] => {
      const turns = { fromS, cleanUntilS: -1, lateUntilS: 3, doneS: null };
      const moment = cutMoment(track, 60, { ...facts, turns });
      const svg = drawChart((selection) => drawMoment(selection, moment, { widthPx: 600, heightPx: 500 }, true));
      return [...svg.querySelectorAll('rect.turns')].map(
        (rect) => [Number(rect.getAttribute('x')), Number(rect.getAttribute('width'))] as const,
      );
    };
    const [[cleanX, cleanWidth], [lateX, lateWidth]] = drawn(-3);
    expect(cleanX + cleanWidth).toBeCloseTo(lateX, 6);
    // two seconds of four that the late ones last
    expect(cleanWidth / lateWidth).toBeCloseTo(0.5, 6);
    expect(drawn(-60)[0][1]).toBeGreaterThan(0);
    expect(drawn(-60)[0][0]).toBeCloseTo(drawn(-10)[0][0], 6);
  });

  it('reads the record next to an event between two as at the event', () => {
    const readings = (eventS: number): (string | undefined)[] => {
      const moment = cutMoment(track, eventS, facts);
      const svg = drawChart((selection) => drawMoment(selection, moment, { widthPx: 600, heightPx: 500 }, false));
      return [...svg.querySelectorAll('.mark.second')].map((mark) => mark.textContent?.split(':')[0]).slice(8, 12);
    };
    expect(readings(60)).toEqual(['2 s before', '1 s before', 'At the event', '1 s after']);
    expect(readings(60.3)).toEqual(['1 s before', 'At the event', '1 s after', '2 s after']);
    expect(readings(60.7)).toEqual(['2 s before', '1 s before', 'At the event', '1 s after']);
  });

  it('breaks its lines at a pause', () => {
    const paused = makeTrack({ ...columns, timeS: seconds.map((s) => (s < 63 ? s : s + 12)) });
    const { samples } = cutMoment(paused, 60, facts);
    expect(samples.map(({ s }) => s).slice(11, 15)).toEqual([1, 2, 15, 16]);
    const path = (key: 'cadenceRpm' | 'chainTeeth', stepped: boolean): string =>
      linePath(
        samples,
        key,
        (s) => s,
        () => 7,
        stepped,
      );
    expect(path('cadenceRpm', false)).toContain('L2.0,7.0M15.0,7.0L16.0,7.0');
    expect(path('chainTeeth', true)).toContain('H2.0V7.0M15.0,7.0h1H16.0V7.0');
    const whole = linePath(
      cutMoment(track, 60, facts).samples,
      'speedKmh',
      (s) => s,
      (s) => s,
      false,
    );
    expect(whole.match(/M/g)).toHaveLength(1);
  });
});

describe('the reading of a record', () => {
  const readings = (atS: number): (string | undefined)[] => {
    const moment = cutMoment(track, atS, facts);
    const svg = drawChart((selection) => drawMoment(selection, moment, { widthPx: 300, heightPx: 500 }, false));
    return [...svg.querySelectorAll('.mark.second')].map((mark) => mark.textContent?.split(':')[0]);
  };

  it.each([59.5, 59.7, 60, 60.3, 60.49])(
    'names one record at the event where it came at %d s, and none 0 s before it',
    (atS) => {
      const shown = readings(atS);
      expect(shown.filter((when) => when === 'At the event').length).toBe(1);
      expect(shown[shown.indexOf('At the event') - 1]).toBe('1 s before');
      expect(shown.filter((when) => when?.startsWith('0 s'))).toEqual([]);
    },
  );
});

describe('momentPlan', () => {
  it('tells what was asked for, of an event that is no shift too', () => {
    const moment = cutMoment(track, 58, facts);
    const plan = momentPlan({ moment, title: 'Ghost', fileName: 'ghost', isShift: false });
    expect(plan.summary).toContain('the cog asked for');
    expect(plan.table.rows[12].slice(0, 2)).toEqual([2, 21]);
  });
});

describe('a track', () => {
  it('finds samples by time', () => {
    expect(sampleFrom(track, 59.5)).toBe(60);
    expect(nearestSample(track, 59.4)).toBe(59);
    expect(nearestSample(track, 1e6)).toBe(119);
  });

  it('holds NaN for what is missing and for a cog that is not on the cassette', () => {
    const odd = makeTrack({ ...columns, commandedTeeth: same(99) });
    expect(odd.commanded.values.every(Number.isNaN)).toBe(true);
    expect(track.powerW.values.every(Number.isNaN)).toBe(true);
  });
});
