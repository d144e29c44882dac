import { path } from 'd3-path';
import { freshId } from '../../dom/fresh-id.ts';
import { makeSvg } from '../../dom/make.ts';
import { LETTER_PX, type Lettering, type Pen, type Stroke, type Surface } from './surface.ts';

/** Draws into an SVG, so that what stands on a canvas can be saved as a picture with sharp lines. */
export const svgSurface = (svg: SVGSVGElement, family: string): Surface => new SvgSurface(svg, family);

class SvgSurface implements Surface {
  /** What is drawn goes into this element. */
  #place: SVGElement;
  readonly #family: string;

  constructor(svg: SVGSVGElement, family: string) {
    this.#place = svg;
    this.#family = family.replaceAll('"', "'");
  }

  stroke(draw: (pen: Pen) => void, { colour, widthPx, dash }: Stroke): void {
    this.#place.append(
      makeSvg('path', {
        d: shape(draw),
        fill: 'none',
        stroke: colour,
        'stroke-width': widthPx,
        'stroke-dasharray': dash?.join(' '),
      }),
    );
  }

  fill(draw: (pen: Pen) => void, colour: string, opacity = 1): void {
    this.#place.append(makeSvg('path', { d: shape(draw), fill: colour, 'fill-opacity': opacity, stroke: 'none' }));
  }

  mark(d: string, x: number, y: number, { colour, widthPx, fill }: Stroke & { readonly fill: string }): void {
    const transform = `translate(${x} ${y})`;
    this.#place.append(makeSvg('path', { d, transform, fill, stroke: colour, 'stroke-width': widthPx }));
  }

  text(words: string, x: number, y: number, { colour, anchor = 'start', bold = false }: Lettering): void {
    const look = {
      x,
      y,
      fill: colour,
      'text-anchor': anchor,
      'dominant-baseline': 'middle',
      'font-family': this.#family,
      'font-size': LETTER_PX,
      'font-weight': bold ? 600 : 400,
    };
    this.#place.append(makeSvg('text', look, words));
  }

  inside(x: number, y: number, width: number, height: number, draw: () => void): void {
    const id = freshId('clip');
    const outside = this.#place;
    const group = makeSvg('g', { 'clip-path': `url(#${id})` });
    outside.append(makeSvg('clipPath', { id }, makeSvg('rect', { x, y, width, height })), group);
    this.#place = group;
    draw();
    this.#place = outside;
  }
}

/** The path of what a pen draws. */
function shape(draw: (pen: Pen) => void): string {
  const pen = path();
  draw(pen);
  return pen.toString();
}
