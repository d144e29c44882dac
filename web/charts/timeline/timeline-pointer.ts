import { listen } from '../../dom/make.ts';
import type { Layout } from './layout.ts';
import type { ReadingLine } from './reading-line.ts';
import type { TimelineEvent } from './timeline-event.ts';
import type { ViewWindow } from './view-window.ts';

/** Where on the canvas a pointer is. */
export interface CanvasPoint {
  readonly x: number;
  readonly y: number;
}

/** Where a pointer's event lies on the canvas, px from its upper left corner. */
export function pointOn(canvas: HTMLElement, event: MouseEvent): CanvasPoint {
  const { left, top } = canvas.getBoundingClientRect();
  return { x: event.clientX - left, y: event.clientY - top };
}

/** Whether a point lies in the strip that shows the whole ride. */
export const isInOverview = ({ y }: CanvasPoint, { overview }: Layout): boolean => y >= overview.topPx - 4;

interface PointerPlan {
  readonly canvas: HTMLElement;
  readonly view: ViewWindow;
  readonly line: ReadingLine;
  readonly layout: () => Layout;
  readonly nearestEvent: (point: CanvasPoint) => TimelineEvent | undefined;
  readonly onOpen: (key: string) => void;
  /** A moment was touched where there is no event, seconds since the start. */
  readonly onPick: (timeS: number) => void;
}

/** Reading by pointer, opening an event by a click on it, and moving along in the overview. Zooming is the view's own. */
export function listenToPointer(plot: HTMLElement, plan: PointerPlan): void {
  const { canvas, view, line, layout, nearestEvent, onOpen, onPick } = plan;
  const overEvent = (point: CanvasPoint): TimelineEvent | undefined =>
    point.y < layout().gears.topPx ? nearestEvent(point) : undefined;
  const follow = ({ x }: CanvasPoint): void => view.centre(view.wholeScale().invert(x));
  listen(plot, {
    pointermove: (event) => {
      const point = pointOn(canvas, event);
      const inOverview = isInOverview(point, layout());
      if (event.buttons === 1 && inOverview) follow(point);
      else if (!inOverview) line.to(view.scale().invert(point.x));
      plot.classList.toggle('is-over-event', Boolean(overEvent(point)));
    },
    pointerleave: () => line.to(null),
    pointerdown: (event) => {
      const point = pointOn(canvas, event);
      if (isInOverview(point, layout())) follow(point);
    },
    click: (event) => {
      const point = pointOn(canvas, event);
      const found = overEvent(point);
      if (found) onOpen(found.key);
      // a finger that is lifted again leaves the plot, and moves no pointer before
      else if (!isInOverview(point, layout())) {
        line.to(view.scale().invert(point.x));
        if (line.timeS !== null) onPick(line.timeS);
      }
    },
  });
}
