import type { LostSpell } from '../../../src/report/charts/lost-spells.ts';
import { make, makeSvg } from '../../dom/make.ts';
import { onThemeChange } from '../../page/theme.ts';
import { chartTool } from '../chart-tool.ts';
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
import { timelineCaption } from './timeline-caption.ts';
import type { TimelineEvent } from './timeline-event.ts';
import { keysInWords, listenToKeys } from './timeline-keys.ts';
import { isInOverview, listenToPointer, pointOn } from './timeline-pointer.ts';
import { trackTable } from './track-table.ts';
import { leaveVerticalSwipes } from './vertical-swipes.ts';
import { ViewWindow } from './view-window.ts';

const REACH_PX = 14;

/** A ride's timeline on the page. */
export interface Timeline {
  readonly element: HTMLElement;
  /** Shows these events (those the reader wants to see), and where drive was lost. */
  setEvents(events: readonly TimelineEvent[], lost: readonly LostSpell[]): void;
  /** Marks an event as opened and, if it was not, brings it into view; null: none. */
  open(key: string | null): void;
  /** Puts the focus where its keys are heard. */
  focus(): void;
}

interface TimelinePlan {
  readonly track: RideTrack;
  readonly fileName: string;
  /** An event's name in words, for a screen reader. */
  readonly nameOf: (key: string) => string;
  readonly onOpen: (key: string) => void;
  /** A moment was chosen where there is no event, seconds since the start. */
  readonly onPick: (timeS: number) => void;
  readonly signal: AbortSignal;
}

/** The whole ride on a canvas: zoom, move, read by pointer or keyboard, open an event. */
export const makeTimeline = (plan: TimelinePlan): Timeline => new CanvasTimeline(plan);

class CanvasTimeline implements Timeline {
  readonly element: HTMLElement;
  readonly #plan: TimelinePlan;
  readonly #canvas = make('canvas', { 'aria-hidden': 'true' });
  readonly #plot: HTMLDivElement;
  readonly #view: ViewWindow;
  readonly #line: ReadingLine;
  #layout: Layout;
  #palette = readPalette(document.body);
  #widthPx = 0;
  #events: readonly TimelineEvent[] = [];
  #lost: readonly LostSpell[] = [];
  #openEvent: string | null = null;
  #waiting = false;

  constructor(plan: TimelinePlan) {
    const { track, nameOf } = plan;
    this.#plan = plan;
    this.#layout = layOut(track, 800);
    this.#plot = make(
      'div',
      {
        class: 'plot timeline-plot',
        tabindex: 0,
        role: 'application',
        'aria-roledescription': 'timeline',
        'aria-label': `Timeline of the ride. ${keysInWords}`,
      },
      this.#canvas,
    );
    leaveVerticalSwipes(this.#plot);
    const { durationS } = track;
    const onChange = (): void => this.#drawSoon();
    const takes = (event: Event): boolean => this.#takes(event);
    this.#view = new ViewWindow({ plot: this.#plot, durationS, layout: this.#layout, takes, onChange });
    this.#line = new ReadingLine({
      track,
      view: this.#view,
      events: () => this.#events,
      lost: () => this.#lost,
      nameOf,
      onChange,
    });
    this.#listen();
    this.element = make(
      'figure',
      { class: 'chart-figure timeline' },
      this.#viewTools(),
      this.#plot,
      make('p', { class: 'quiet timeline-caption' }, timelineCaption(track)),
      this.#line.element,
      this.#saveTools(),
    );
  }

  setEvents(events: readonly TimelineEvent[], lost: readonly LostSpell[]): void {
    this.#lost = lost;
    this.#events = [...events].sort((a, b) => a.timeS - b.timeS);
    this.#drawSoon();
  }

  open(key: string | null): void {
    // One that is open already stays where the reader has moved the view to.
    const event = key === this.#openEvent ? undefined : this.#events.find((one) => one.key === key);
    this.#openEvent = key;
    if (event) {
      this.#view.bring(event.timeS);
      // what was read before at another place is no longer what the reader looks at
      if (!this.#plot.contains(document.activeElement)) this.#line.to(null);
    }
    this.#drawSoon();
  }

  focus(): void {
    this.#plot.focus();
  }

  #listen(): void {
    const { track, onOpen, onPick, signal } = this.#plan;
    const [plot, view, line] = [this.#plot, this.#view, this.#line];
    listenToKeys(plot, {
      view,
      line,
      durationS: track.durationS,
      zoom: (factor) => this.#zoom(factor),
      openAtLine: () => this.#openAtLine(),
    });
    listenToPointer(plot, {
      canvas: this.#canvas,
      view,
      line,
      layout: () => this.#layout,
      nearestEvent: (point) => this.#nearestEvent(point),
      onOpen,
      onPick,
    });
    onThemeChange(() => {
      this.#palette = readPalette(document.body);
      this.#drawSoon();
    }, signal);
    const observer = new ResizeObserver(() => this.#resize());
    observer.observe(plot);
    signal.addEventListener('abort', () => observer.disconnect(), { once: true });
  }

  #resize(): void {
    this.#widthPx = Math.floor(this.#plot.clientWidth);
    this.#layout = layOut(this.#plan.track, this.#widthPx);
    sizeCanvas(this.#canvas, this.#widthPx, this.#layout);
    this.#view.layOut(this.#layout);
    this.#drawSoon();
  }

  #scene(): Scene {
    const [fromS, toS] = this.#view.seconds();
    return {
      track: this.#plan.track,
      events: this.#events,
      lost: this.#lost,
      layout: this.#layout,
      palette: this.#palette,
      fromS,
      toS,
      readingS: this.#line.timeS,
      openEvent: this.#openEvent,
    };
  }

  #drawSoon(): void {
    if (!this.#waiting)
      requestAnimationFrame(() => {
        this.#waiting = false;
        if (this.#widthPx >= 60) drawOn(this.#canvas, this.#widthPx, this.#scene());
      });
    this.#waiting = true;
  }

  /** Whether the wheel, a finger or a drag is meant to zoom and move. */
  #takes(event: Event): boolean {
    if (event instanceof WheelEvent) return event.ctrlKey || event.metaKey || document.activeElement === this.#plot;
    const { button, ctrlKey } = event as MouseEvent;
    const inOverview = event instanceof MouseEvent && isInOverview(pointOn(this.#canvas, event), this.#layout);
    return !button && !ctrlKey && !inOverview;
  }

  /** The event within reach; `y` null: on whatever height. */
  #nearestEvent({ x, y }: { x: number; y: number | null }): TimelineEvent | undefined {
    const scale = this.#view.scale();
    const cost = (event: TimelineEvent): number =>
      Math.hypot(scale(event.timeS) - x, y === null ? 0 : (y - laneOf(this.#layout, event.kind)) * 0.6);
    const near = this.#events.filter((event) => Math.abs(scale(event.timeS) - x) <= REACH_PX);
    return near.sort((a, b) => cost(a) - cost(b))[0];
  }

  /** Comes closer to what is being read, else to the event that is open. */
  #zoom(factor: number): void {
    const open = this.#events.find(({ key }) => key === this.#openEvent);
    this.#view.zoomBy(factor, [this.#line.timeS, open?.timeS ?? null]);
  }

  #openAtLine(): void {
    const { timeS } = this.#line;
    const found = timeS === null ? undefined : this.#nearestEvent({ x: this.#view.scale()(timeS), y: null });
    if (found) this.#plan.onOpen(found.key);
    else if (timeS !== null) this.#plan.onPick(timeS);
  }

  #viewTools(): HTMLElement {
    const view = this.#view;
    return make(
      'div',
      { class: 'row timeline-tools' },
      chartTool('closer', 'Closer', () => this.#zoom(2)),
      chartTool('farther', 'Wider', () => this.#zoom(0.5)),
      chartTool('whole', 'Whole ride', () => view.showWhole()),
      chartTool('left', 'Earlier', () => view.move(-0.5)),
      chartTool('right', 'Later', () => view.move(0.5)),
    );
  }

  #saveTools(): HTMLElement {
    const { track, fileName } = this.#plan;
    return make(
      'div',
      { class: 'row chart-tools' },
      chartTool('save', 'Save picture', () => this.#savePicture()),
      chartTool('save', 'Save data', () => saveFile(`${fileName}.csv`, 'text/csv', tableAsCsv(trackTable(track)))),
    );
  }

  #savePicture(): void {
    const svg = makeSvg('svg', { width: this.#widthPx, height: this.#layout.heightPx });
    drawTimeline(svgSurface(svg, this.#palette.family), { ...this.#scene(), readingS: null });
    const picture = svgFile(svg, 'Timeline of the ride', this.#palette.panel);
    saveFile(`${this.#plan.fileName}.svg`, 'image/svg+xml', picture);
  }
}

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
