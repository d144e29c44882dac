/** Makes a box a stop of the keyboard, to be scrolled with its keys, while there is more in it than it shows, and only then. */
export function stopWhereItScrolls<Box extends HTMLElement>(box: Box): Box {
  const observer = new ResizeObserver(() => {
    const scrolls = box.scrollHeight > box.clientHeight || box.scrollWidth > box.clientWidth;
    if (scrolls) box.setAttribute('tabindex', '0');
    else box.removeAttribute('tabindex');
  });
  for (const part of [box, ...box.children]) observer.observe(part);
  return box;
}
