/** A finger has to go this far before its way is known, px. */
const WAY_KNOWN_PX = 4;

/**
 * Leaves a single finger that swipes up or down to the page, which it scrolls: what listens to touches on the plot
 * itself would keep the browser from that. To be called before anything listens there.
 */
export function leaveVerticalSwipes(plot: HTMLElement): void {
  let from: { readonly x: number; readonly y: number } | null = null;
  let goesAlong = false;
  const at = ({ touches: [{ clientX: x, clientY: y }] }: TouchEvent) => ({ x, y });
  plot.addEventListener(
    'touchstart',
    (event) => {
      from = event.touches.length === 1 ? at(event) : null;
      goesAlong = false;
    },
    { capture: true, passive: true },
  );
  plot.addEventListener(
    'touchmove',
    (event) => {
      if (from === null || goesAlong || event.touches.length !== 1) return;
      const { x, y } = at(event);
      const [alongPx, acrossPx] = [Math.abs(x - from.x), Math.abs(y - from.y)];
      goesAlong = alongPx >= acrossPx && alongPx >= WAY_KNOWN_PX;
      if (!goesAlong) event.stopImmediatePropagation();
    },
    { capture: true, passive: true },
  );
}
