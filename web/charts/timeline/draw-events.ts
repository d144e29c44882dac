import type { Frame } from './frame.ts';
import type { Layout } from './layout.ts';
import { type EventKind, kindShape } from './timeline-event.ts';

/** Half of the seconds an opened event shows. */
const OPEN_HALF_S = 15;

const lower: readonly EventKind[] = ['ghost', 'drop', 'skip'];

/** Height at which events of a kind stand: shifts above, what nobody asked for below. */
export const laneOf = (layout: Layout, kind: EventKind): number =>
  layout.eventsPx.top + (lower.includes(kind) ? 33 : 11);

/** Draws the events over the gears, with the seconds of the opened one marked through all bands. */
export function drawEvents({ surface, x, layout, palette, events, fromS, toS, openEvent }: Frame): void {
  const { top, height } = layout.eventsPx;
  const open = events.find((event) => event.key === openEvent);
  surface.inside(layout.leftPx - 8, top - 4, layout.rightPx - layout.leftPx + 16, layout.axisPx - top + 4, () => {
    surface.stroke(
      (pen) => {
        pen.moveTo(layout.leftPx, top + height);
        pen.lineTo(layout.rightPx, top + height);
      },
      { colour: palette['line-strong'], widthPx: 1 },
    );
    if (open) {
      const left = x(open.timeS - OPEN_HALF_S);
      const width = Math.max(4, x(open.timeS + OPEN_HALF_S) - left);
      surface.fill((pen) => pen.rect(left, top - 2, width, layout.axisPx - top + 2), palette.accent, 0.16);
    }
    const margin = (toS - fromS) * 0.02;
    for (const { kind, timeS, rejected, key } of events) {
      if (timeS < fromS - margin || timeS > toS + margin) continue;
      const calm = kind === 'clean' || kind === 'unjudged' || rejected;
      surface.mark(kindShape[kind], x(timeS), laneOf(layout, kind), {
        colour: key === openEvent ? palette.accent : calm ? palette.quiet : palette.trouble,
        widthPx: key === openEvent ? 2.6 : calm ? 1.2 : 1.8,
        fill: kind === 'drop' && !rejected ? palette.trouble : palette.panel,
      });
    }
  });
}
