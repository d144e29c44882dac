/** What paths are drawn with; a canvas context and d3's path both fit. */
export interface Pen {
  moveTo(x: number, y: number): void;
  lineTo(x: number, y: number): void;
  rect(x: number, y: number, width: number, height: number): void;
}

/** How a line is drawn. */
export interface Stroke {
  readonly colour: string;
  readonly widthPx: number;
  readonly dash?: readonly number[];
}

/** How words are drawn. */
export interface Lettering {
  readonly colour: string;
  readonly anchor?: 'start' | 'middle' | 'end';
  readonly bold?: boolean;
}

/** Something a chart can be drawn on: a canvas on the page, an SVG for a saved picture. */
export interface Surface {
  stroke(draw: (pen: Pen) => void, look: Stroke): void;
  fill(draw: (pen: Pen) => void, colour: string, opacity?: number): void;
  /** Draws an SVG path around a point, filled and stroked. */
  mark(path: string, x: number, y: number, look: Stroke & { readonly fill: string }): void;
  text(words: string, x: number, y: number, look: Lettering): void;
  /** Draws only inside a rectangle. */
  inside(x: number, y: number, width: number, height: number, draw: () => void): void;
}

/** Size of all letters. */
export const LETTER_PX = 12;
