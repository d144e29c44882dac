/** A value of a chart's table; null is an empty cell. */
export type Cell = string | number | null;

/** A chart's data as a table, for reading and for saving. Numbers stay numbers; `null` is an empty cell. */
export interface ChartTable {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly Cell[])[];
}

/** Something that can be drawn, read and saved. */
export interface ChartPlan {
  readonly title: string;
  /** What the chart shows, in a sentence or two, for those who do not see it. */
  readonly summary: string;
  /** Saved files are called this, without an ending. */
  readonly fileName: string;
  readonly table: ChartTable;
  /** The table to be read on the page, where it is worded otherwise than the saved one. */
  readonly tableToRead?: ChartTable;
  heightPx(widthPx: number): number;
  /** Draws into an empty svg of the given size. Marks that can be read have the class `mark` and a `<title>`. */
  draw(svg: SVGSVGElement, widthPx: number, heightPx: number): void;
}
