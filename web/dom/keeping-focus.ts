/**
 * Draws a part of the page again without taking the reader's place away: the focus returns to the element with the
 * same `data-keep`, and details that were open stay open.
 */
export function keepingFocus(place: HTMLElement, draw: () => void): void {
  const nameOf = (element: Element | null): string | null =>
    element instanceof HTMLElement && place.contains(element) ? (element.dataset.keep ?? null) : null;
  const focused = nameOf(document.activeElement);
  const open = new Set([...place.querySelectorAll('details[open][data-keep]')].map(nameOf));
  draw();
  for (const element of place.querySelectorAll<HTMLElement>('[data-keep]')) {
    const name = element.dataset.keep ?? null;
    if (element instanceof HTMLDetailsElement && open.has(name)) element.open = true;
    if (focused !== null && name === focused) element.focus({ preventScroll: true });
  }
}
