import { listen, make, makeSvg } from '../../dom/make.ts';
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
import { ReadingLine } from './reading-line.ts';
import type { RideTrack } from './ride-track.ts';
import { svgSurface } from './svg-surface.ts';
import type { TimelineEvent } from './timeline-event.ts';
import { keysInWords, listenToKeys } from './timeline-keys.ts';
import { isInOverview, listenToPointer, pointOn } from './timeline-pointer.ts';
import { trackTable } from './track-table.ts';
import { ViewWindow } from './view-window.ts';

const reachPx = 14;

/** A ride's timeline on the page. */
export interface Timeline {
  readonly element: HTMLElement;
  /** Shows these events (those the reader wants to see). */
  setEvents(events: readonly TimelineEvent[]): void;
  /** Marks an event as opened and, if it was not, brings it into view; null: none. */
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
  const plot = make(
    'div',
    {
      class: 'plot timeline-plot',
      tabindex: 0,
      role: 'application',
      'aria-roledescription': 'timeline',
      'aria-label': `Timeline of the ride. ${keysInWords}`,
    },
    canvas,
  );
  let layout = layOut(track, 800);
  let palette = readPalette(document.body);
  let widthPx = 0;
  let events: readonly TimelineEvent[] = [];
  let openEvent: string | null = null;
  let waiting = false;

  const scene = (): Scene => {
    const [fromS, toS] = view.seconds();
    return { track, events, layout, palette, fromS, toS, readingS: line.timeS, openEvent };
  };
  const draw = (): void => {
    waiting = false;
    if (widthPx >= 60) drawOn(canvas, widthPx, scene());
  };
  const drawSoon = (): void => {
    if (!waiting) requestAnimationFrame(draw);
    waiting = true;
  };
  const takes = (event: Event): boolean => {
    if (event instanceof WheelEvent) return event.ctrlKey || event.metaKey || document.activeElement === plot;
    const { button, ctrlKey } = event as MouseEvent;
    const inOverview = event instanceof MouseEvent && isInOverview(pointOn(canvas, event), layout);
    return !button && !ctrlKey && !inOverview;
  };
  const view = new ViewWindow({ plot, durationS: track.durationS, layout, takes, onChange: drawSoon });
  const line = new ReadingLine({ track, view, events: () => events, nameOf, onChange: drawSoon });
  /** The event within reach; `y` null: on whatever height. */
  const nearestEvent = ({ x, y }: { x: number; y: number | null }): TimelineEvent | undefined => {
    const scale = view.scale();
    const cost = (event: TimelineEvent): number =>
      Math.hypot(scale(event.timeS) - x, y === null ? 0 : (y - laneOf(layout, event.kind)) * 0.6);
    const near = events.filter((event) => Math.abs(scale(event.timeS) - x) <= reachPx);
    return near.sort((a, b) => cost(a) - cost(b))[0];
  };
  const openAtLine = (): void => {
    const found = line.timeS === null ? undefined : nearestEvent({ x: view.scale()(line.timeS), y: null });
    if (found) onOpen(found.key);
  };
  listenToKeys(plot, { view, line, durationS: track.durationS, openAtLine });
  listenToPointer(plot, { canvas, view, line, layout: () => layout, nearestEvent, onOpen });

  onThemeChange(() => {
    palette = readPalette(document.body);
    drawSoon();
  }, signal);
  const observer = new ResizeObserver(() => {
    widthPx = Math.floor(plot.clientWidth);
    layout = layOut(track, widthPx);
    sizeCanvas(canvas, widthPx, layout);
    view.layOut(layout);
    drawSoon();
  });
  observer.observe(plot);
  signal.addEventListener('abort', () => observer.disconnect(), { once: true });

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
        tool('closer', 'Closer', () => view.zoomBy(2, line.timeS)),
        tool('farther', 'Wider', () => view.zoomBy(0.5, line.timeS)),
        tool('whole', 'Whole ride', () => view.showWhole()),
        tool('left', 'Earlier', () => view.move(-0.5)),
        tool('right', 'Later', () => view.move(0.5)),
      ),
      plot,
      line.element,
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
      // One that is open already stays where the reader has moved the view to.
      const event = key === openEvent ? undefined : events.find((one) => one.key === key);
      openEvent = key;
      if (event) view.bring(event.timeS);
      drawSoon();
    },
  };
}

const tool = (name: IconName, text: string, click: () => void): HTMLButtonElement =>
  listen(make('button', { type: 'button', class: 'plain small' }, icon(name), text), { click });

function sizeCanvas(canvas: HTMLCanvasElement, widthPx: number, { heightPx }: Layout): void {
  canvas.width = Math.round(widthPx * devicePixelRatio);
  canvas.height = Math.round(heightPx * devicePixelRatio);
  canvas.style.width = `${widthPx}px`;
  canvas.style.height = `${heightPx}px`;
}

function drawOn(canvas: HTMLCanvasElement, widthPx: number, scene: Scene): void {
  const context = canvas.getContext('2d')!;
  context.setTransform(devicePixelRatio, 0, 0, devicePixelRatio, 0, 0);
  context.clearRect(0, 0, widthPx, scene.layout.heightPx);
  drawTimeline(canvasSurface(context, scene.palette.family), scene);
}
