import { type D3ZoomEvent, select, type ZoomTransform, zoom, zoomIdentity } from 'd3';
import { scaleLinear } from 'd3-scale';
import { announce } from '../../dom/announce.ts';
import { fill, listen, make, makeSvg } from '../../dom/make.ts';
import { type IconName, icon } from '../../page/icons.ts';
import { onThemeChange } from '../../page/theme.ts';
import { saveFile } from '../save-file.ts';
import { svgFile } from '../svg-as-text.ts';
import { tableAsCsv } from '../table-as-csv.ts';
import { canvasSurface } from './canvas-surface.ts';
import { laneOf } from './draw-events.ts';
import { drawTimeline } from './draw-timeline.ts';
import type { Scene } from './frame.ts';
import { type Layout, layOut } from './layout.ts';
import { readPalette } from './palette.ts';
import { readingAt } from './reading-words.ts';
import type { RideTrack } from './ride-track.ts';
import { svgSurface } from './svg-surface.ts';
import type { TimelineEvent } from './timeline-event.ts';
import { trackTable } from './track-table.ts';

const closestViewS = 12;
const reachPx = 14;
const hint = 'Point at the ride to read it. Click it, then scroll to zoom; drag to move along.';

export interface Timeline {
  readonly element: HTMLElement;
  /** Shows these events (those the reader wants to see). */
  setEvents(events: readonly TimelineEvent[]): void;
  /** Marks an event as opened and brings it into view; null: none. */
  open(key: string | null): void;
}

interface TimelinePlan {
  readonly track: RideTrack;
  readonly fileName: string;
  /** An event's name in words, for a screen reader. */
  readonly nameOf: (key: string) => string;
  readonly onOpen: (key: string) => void;
  readonly signal: AbortSignal;
}

/** The whole ride on a canvas: zoom, move, read by pointer or keyboard, open an event. */
export function makeTimeline({ track, fileName, nameOf, onOpen, signal }: TimelinePlan): Timeline {
  const canvas = make('canvas', { 'aria-hidden': 'true' });
  const readout = make('dl', { class: 'timeline-reading', 'aria-hidden': 'true' });
  const plot = make(
    'div',
    {
      class: 'plot timeline-plot',
      tabindex: 0,
      role: 'application',
      'aria-roledescription': 'timeline',
      'aria-label':
        'Timeline of the ride. Left and right arrows move the reading line, plus and minus zoom, Page Up and Page Down move along, comma and full stop go from event to event, Enter opens the nearest event.',
    },
    canvas,
  );
  const context = canvas.getContext('2d')!;
  let layout: Layout = layOut(track, 800);
  let palette = readPalette(document.body);
  let widthPx = 0;
  let transform: ZoomTransform = zoomIdentity;
  let events: readonly TimelineEvent[] = [];
  let readingS: number | null = null;
  let openEvent: string | null = null;
  let waiting = false;

  const wholeS = Math.max(closestViewS, track.durationS);
  const wholeScale = () => scaleLinear([0, wholeS], [layout.leftPx, layout.rightPx]);
  const scale = () => transform.rescaleX(wholeScale());
  const scene = (): Scene => {
    const [fromS, toS] = scale().domain();
    return { track, events, layout, palette, fromS, toS, readingS, openEvent };
  };
  const draw = (): void => {
    waiting = false;
    if (widthPx < 60) return;
    context.setTransform(devicePixelRatio, 0, 0, devicePixelRatio, 0, 0);
    context.clearRect(0, 0, widthPx, layout.heightPx);
    drawTimeline(canvasSurface(context, palette.family), scene());
  };
  const drawSoon = (): void => {
    if (!waiting) requestAnimationFrame(draw);
    waiting = true;
  };

  const behaviour = zoom<HTMLDivElement, unknown>()
    .filter((event: Event) =>
      event instanceof WheelEvent
        ? event.ctrlKey || event.metaKey || document.activeElement === plot
        : !(event as MouseEvent).button && !(event as MouseEvent).ctrlKey && !inOverview(event),
    )
    .on('zoom', (event: D3ZoomEvent<HTMLDivElement, unknown>) => {
      transform = event.transform;
      drawSoon();
    });
  const plotSelection = select<HTMLDivElement, unknown>(plot as HTMLDivElement).call(behaviour);
  const yOf = (event: MouseEvent): number => event.clientY - canvas.getBoundingClientRect().top;
  const xOf = (event: MouseEvent): number => event.clientX - canvas.getBoundingClientRect().left;
  const inOverview = (event: Event): boolean => event instanceof MouseEvent && yOf(event) >= layout.overview.topPx - 4;

  const size = (): void => {
    const [fromS, toS] = widthPx > 0 ? scale().domain() : [0, wholeS];
    widthPx = Math.floor(plot.clientWidth);
    layout = layOut(track, widthPx);
    canvas.width = Math.round(widthPx * devicePixelRatio);
    canvas.height = Math.round(layout.heightPx * devicePixelRatio);
    canvas.style.width = `${widthPx}px`;
    canvas.style.height = `${layout.heightPx}px`;
    behaviour
      .scaleExtent([1, wholeS / closestViewS])
      .extent([
        [layout.leftPx, 0],
        [layout.rightPx, layout.heightPx],
      ])
      .translateExtent([
        [layout.leftPx, 0],
        [layout.rightPx, layout.heightPx],
      ]);
    view(fromS, toS);
    drawSoon();
  };
  /** Brings these seconds into view. */
  const view = (fromS: number, toS: number): void => {
    const k = wholeS / Math.max(closestViewS, toS - fromS);
    const left = wholeScale()(fromS);
    plotSelection.call(behaviour.transform, zoomIdentity.translate(layout.leftPx - left * k, 0).scale(k));
  };
  const move = (shareOfView: number): void => {
    const [fromS, toS] = scale().domain();
    const shift = Math.max(-fromS, Math.min((toS - fromS) * shareOfView, wholeS - toS));
    view(fromS + shift, toS + shift);
  };
  const zoomBy = (factor: number): void => {
    const [fromS, toS] = scale().domain();
    const middle = readingS !== null && readingS > fromS && readingS < toS ? readingS : (fromS + toS) / 2;
    view(Math.max(0, middle - (middle - fromS) / factor), Math.min(wholeS, middle + (toS - middle) / factor));
  };
  const intoView = (timeS: number): void => {
    const [fromS, toS] = scale().domain();
    const span = toS - fromS;
    const margin = span * 0.05;
    if (timeS >= fromS + margin && timeS <= toS - margin) return;
    const from = Math.max(0, Math.min(timeS - span / 2, wholeS - span));
    view(from, from + span);
  };
  const read = (timeS: number | null, aloud = false): void => {
    readingS = timeS === null ? null : Math.max(0, Math.min(timeS, track.durationS));
    const values = readingS === null ? [] : readingAt(track, readingS);
    fill(
      readout,
      ...values.map(({ name, text }) => make('div', {}, make('dt', {}, name), make('dd', {}, text))),
      values.length === 0 && make('div', {}, make('dt', {}, hint)),
    );
    if (aloud) announce(values.map(({ name, text }) => `${name} ${text}`).join(', '));
    drawSoon();
  };
  const nearestEvent = (xPx: number, yPx: number | null): TimelineEvent | undefined => {
    const x = scale();
    const cost = (event: TimelineEvent): number =>
      Math.hypot(x(event.timeS) - xPx, yPx === null ? 0 : (yPx - laneOf(layout, event.kind)) * 0.6);
    const near = events.filter((event) => Math.abs(x(event.timeS) - xPx) <= reachPx);
    return near.sort((a, b) => cost(a) - cost(b))[0];
  };
  const toEvent = (way: 1 | -1): void => {
    const from = readingS ?? scale().domain()[0];
    const inOrder = way > 0 ? events : [...events].reverse();
    const next = inOrder.find((event) => (event.timeS - from) * way > 0.5);
    if (!next) {
      announce('No further event');
      return;
    }
    intoView(next.timeS);
    read(next.timeS);
    announce(nameOf(next.key));
  };
  const keys: Record<string, () => void> = {
    ArrowLeft: () => step(-1),
    ArrowRight: () => step(1),
    PageUp: () => move(-0.8),
    PageDown: () => move(0.8),
    Home: () => toEnd(0),
    End: () => toEnd(track.durationS),
    '+': () => zoomBy(1.6),
    '=': () => zoomBy(1.6),
    '-': () => zoomBy(1 / 1.6),
    '0': () => view(0, wholeS),
    ',': () => toEvent(-1),
    '.': () => toEvent(1),
    Enter: () => {
      const found = readingS === null ? undefined : nearestEvent(scale()(readingS), null);
      if (found) onOpen(found.key);
    },
  };
  const step = (way: 1 | -1): void => {
    const [fromS, toS] = scale().domain();
    const by = Math.max(1, (toS - fromS) / 100);
    const next = (readingS ?? (fromS + toS) / 2) + way * by;
    intoView(Math.max(0, Math.min(next, track.durationS)));
    read(next, true);
  };
  const toEnd = (timeS: number): void => {
    intoView(timeS);
    read(timeS, true);
  };
  listen(plot, {
    keydown: (event) => {
      const act = event.ctrlKey || event.metaKey || event.altKey ? undefined : keys[event.key];
      if (!act) return;
      event.preventDefault();
      act();
    },
    pointermove: (event) => {
      if (event.buttons === 1 && inOverview(event)) follow(event);
      else if (!inOverview(event)) read(scale().invert(xOf(event)));
      plot.classList.toggle('is-over-event', Boolean(overEvent(event)));
    },
    pointerleave: () => read(null),
    pointerdown: (event) => {
      if (inOverview(event)) follow(event);
    },
    click: (event) => {
      const found = overEvent(event);
      if (found) onOpen(found.key);
    },
  });
  const overEvent = (event: MouseEvent): TimelineEvent | undefined =>
    yOf(event) < layout.gears.topPx ? nearestEvent(xOf(event), yOf(event)) : undefined;
  const follow = (event: MouseEvent): void => {
    const [fromS, toS] = scale().domain();
    const middle = wholeScale().invert(xOf(event));
    const from = Math.max(0, Math.min(middle - (toS - fromS) / 2, wholeS - (toS - fromS)));
    view(from, from + toS - fromS);
  };
  read(null);
  onThemeChange(() => {
    palette = readPalette(document.body);
    drawSoon();
  }, signal);
  const observer = new ResizeObserver(size);
  observer.observe(plot);
  signal.addEventListener('abort', () => observer.disconnect(), { once: true });

  const tool = (name: IconName, text: string, click: () => void): HTMLButtonElement =>
    listen(make('button', { type: 'button', class: 'plain small' }, icon(name), text), { click });
  const savePicture = (): void => {
    const svg = makeSvg('svg', { width: widthPx, height: layout.heightPx });
    drawTimeline(svgSurface(svg, palette.family), { ...scene(), readingS: null });
    saveFile(`${fileName}.svg`, 'image/svg+xml', svgFile(svg, 'Timeline of the ride', palette.panel));
  };
  return {
    element: make(
      'figure',
      { class: 'chart-figure timeline' },
      make(
        'div',
        { class: 'row timeline-tools' },
        tool('closer', 'Closer', () => zoomBy(2)),
        tool('farther', 'Wider', () => zoomBy(0.5)),
        tool('whole', 'Whole ride', () => view(0, wholeS)),
        tool('left', 'Earlier', () => move(-0.5)),
        tool('right', 'Later', () => move(0.5)),
      ),
      plot,
      readout,
      make(
        'div',
        { class: 'row chart-tools' },
        tool('save', 'Save picture', savePicture),
        tool('save', 'Save data', () => saveFile(`${fileName}.csv`, 'text/csv', tableAsCsv(trackTable(track)))),
      ),
    ),
    setEvents: (next) => {
      events = [...next].sort((a, b) => a.timeS - b.timeS);
      drawSoon();
    },
    open: (key) => {
      openEvent = key;
      const event = events.find((one) => one.key === key);
      if (event) intoView(event.timeS);
      drawSoon();
    },
  };
}
