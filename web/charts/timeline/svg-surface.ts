import { path } from 'd3-path';
import { freshId } from '../../dom/fresh-id.ts';
import { makeSvg } from '../../dom/make.ts';
import { letterPx, type Surface } from './surface.ts';

/** Draws into an SVG, so that what stands on a canvas can be saved as a picture with sharp lines. */
export function svgSurface(svg: SVGSVGElement, family: string): Surface {
  let place: SVGElement = svg;
  const shape = (draw: (pen: ReturnType<typeof path>) => void): string => {
    const pen = path();
    draw(pen);
    return pen.toString();
  };
  return {
    stroke: (draw, { colour, widthPx, dash }) => {
      place.append(
        makeSvg('path', {
          d: shape(draw),
          fill: 'none',
          stroke: colour,
          'stroke-width': widthPx,
          'stroke-dasharray': dash?.join(' '),
        }),
      );
    },
    fill: (draw, colour, opacity = 1) => {
      place.append(makeSvg('path', { d: shape(draw), fill: colour, 'fill-opacity': opacity, stroke: 'none' }));
    },
    mark: (d, x, y, { colour, widthPx, fill }) => {
      place.append(
        makeSvg('path', { d, transform: `translate(${x} ${y})`, fill, stroke: colour, 'stroke-width': widthPx }),
      );
    },
    text: (words, x, y, { colour, anchor = 'start', bold = false }) => {
      place.append(
        makeSvg(
          'text',
          {
            x,
            y,
            fill: colour,
            'text-anchor': anchor,
            'dominant-baseline': 'middle',
            'font-family': family.replaceAll('"', "'"),
            'font-size': letterPx,
            'font-weight': bold ? 600 : 400,
          },
          words,
        ),
      );
    },
    inside: (x, y, width, height, draw) => {
      const id = freshId('clip');
      const outside = place;
      const group = makeSvg('g', { 'clip-path': `url(#${id})` });
      outside.append(makeSvg('clipPath', { id }, makeSvg('rect', { x, y, width, height })), group);
      place = group;
      draw();
      place = outside;
    },
  };
}
