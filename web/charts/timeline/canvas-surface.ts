import { LETTER_PX, type Surface } from './surface.ts';

const paths = new Map<string, Path2D>();

function pathOf(text: string): Path2D {
  const path = paths.get(text) ?? new Path2D(text);
  paths.set(text, path);
  return path;
}

/** Draws on a canvas. */
export function canvasSurface(context: CanvasRenderingContext2D, family: string): Surface {
  return {
    stroke: (draw, { colour, widthPx, dash = [] }) => {
      context.beginPath();
      draw(context);
      context.strokeStyle = colour;
      context.lineWidth = widthPx;
      context.setLineDash([...dash]);
      context.stroke();
    },
    fill: (draw, colour, opacity = 1) => {
      context.beginPath();
      draw(context);
      context.fillStyle = colour;
      context.globalAlpha = opacity;
      context.fill();
      context.globalAlpha = 1;
    },
    mark: (path, x, y, { colour, widthPx, fill }) => {
      context.save();
      context.translate(x, y);
      context.setLineDash([]);
      context.fillStyle = fill;
      context.strokeStyle = colour;
      context.lineWidth = widthPx;
      context.fill(pathOf(path));
      context.stroke(pathOf(path));
      context.restore();
    },
    text: (words, x, y, { colour, anchor = 'start', bold = false }) => {
      context.font = `${bold ? '600 ' : ''}${LETTER_PX}px ${family}`;
      context.textAlign = anchor === 'middle' ? 'center' : anchor;
      context.textBaseline = 'middle';
      context.fillStyle = colour;
      context.fillText(words, x, y);
    },
    inside: (x, y, width, height, draw) => {
      context.save();
      context.beginPath();
      context.rect(x, y, width, height);
      context.clip();
      draw();
      context.restore();
    },
  };
}
