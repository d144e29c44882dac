const kept = [
  'fill',
  'fill-opacity',
  'stroke',
  'stroke-width',
  'stroke-opacity',
  'stroke-dasharray',
  'stroke-linecap',
  'stroke-linejoin',
  'opacity',
  'font-family',
  'font-size',
  'font-weight',
  'font-style',
  'letter-spacing',
  'text-anchor',
  'dominant-baseline',
  'paint-order',
  'visibility',
  'display',
];

const space = 'http://www.w3.org/2000/svg';

/** A drawing whose looks stand in its attributes, as a file with a ground and the chart's name as its title. */
export function svgFile(svg: SVGSVGElement, title: string, ground: string): string {
  svg.setAttribute('xmlns', space);
  svg.setAttribute('viewBox', `0 0 ${svg.getAttribute('width')} ${svg.getAttribute('height')}`);
  const name = document.createElementNS(space, 'title');
  name.textContent = title;
  const sheet = document.createElementNS(space, 'rect');
  for (const [key, value] of Object.entries({ width: '100%', height: '100%', fill: ground }))
    sheet.setAttribute(key, value);
  svg.prepend(name, sheet);
  return `<?xml version="1.0" encoding="UTF-8"?>\n${new XMLSerializer().serializeToString(svg)}\n`;
}

/** A drawing on the page as a file of its own: the looks that style sheets give it are written into it as attributes. */
export function svgAsText(svg: SVGSVGElement, title: string, ground: string): string {
  const copy = svg.cloneNode(true) as SVGSVGElement;
  const originals = svg.querySelectorAll<SVGElement>('*');
  copy.querySelectorAll<SVGElement>('*').forEach((element, i) => {
    const look = getComputedStyle(originals[i]);
    for (const name of kept) {
      const value = look.getPropertyValue(name);
      if (value) element.setAttribute(name, value.replaceAll('"', "'"));
    }
    element.removeAttribute('class');
  });
  for (const name of ['class', 'aria-hidden', 'aria-label', 'role']) copy.removeAttribute(name);
  return svgFile(copy, title, ground);
}
