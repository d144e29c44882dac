import { makeSvg } from '../dom/make.ts';

/** Drawings on a 20 by 20 field, stroked in the text's colour. */
const drawings = {
  back: 'M12.5 4.5 7 10l5.5 5.5',
  add: 'M10 4v12M4 10h12',
  print: 'M6 7V3.5h8V7M6 14H3.5V7h13v7H14M6 11.5h8v5H6z',
  save: 'M10 3.5v9M6.5 9.5 10 13l3.5-3.5M4 16.5h12',
  table: 'M3.5 4.5h13v11h-13zM3.5 8.5h13M3.5 12h13M8.5 8.5v7',
  sun: 'M10 6.5a3.5 3.5 0 1 0 0 7 3.5 3.5 0 1 0 0-7ZM10 2v1.5M10 16.5V18M2 10h1.5M16.5 10H18M4.4 4.4l1 1M14.6 14.6l1 1M4.4 15.6l1-1M14.6 5.4l1-1',
  moon: 'M16 12.2A6.8 6.8 0 0 1 7.8 4a6.5 6.5 0 1 0 8.2 8.2Z',
  caution: 'M10 3 2.5 16.5h15zM10 8v4.2M10 14.2v.3',
  edit: 'M4 16l.8-3.2 8.7-8.7 2.4 2.4-8.7 8.7zM11.8 5.8l2.4 2.4',
  remove: 'M4.5 6h11M8 6V4h4v2M6 6l.7 10.5h6.6L14 6M8.6 9v4.5M11.4 9v4.5',
  tag: 'M10.8 3h5.7v5.7L9 16.2 3.3 10.5zM13.6 5.6v.6',
  tick: 'M4 10.5 8.2 15 16 5.5',
  cross: 'M5 5l10 10M15 5 5 15',
  remark: 'M10 9v5.5M10 5.6v.4M10 2.5a7.5 7.5 0 1 0 0 15 7.5 7.5 0 1 0 0-15Z',
  closer: 'M9 3.5a5.5 5.5 0 1 0 0 11 5.5 5.5 0 1 0 0-11ZM13 13l4 4M9 6.5v5M6.5 9h5',
  farther: 'M9 3.5a5.5 5.5 0 1 0 0 11 5.5 5.5 0 1 0 0-11ZM13 13l4 4M6.5 9h5',
  whole: 'M3 10h14M6 6.5 2.5 10 6 13.5M14 6.5l3.5 3.5-3.5 3.5',
  more: 'M4.5 7.5 10 13l5.5-5.5',
  left: 'M12 4.5 6.5 10l5.5 5.5',
  right: 'M8 4.5 13.5 10 8 15.5',
} as const;

/** One of the drawings. */
export type IconName = keyof typeof drawings;

/** An icon that goes with words; hidden from a screen reader. */
export function icon(name: IconName): SVGSVGElement {
  return makeSvg(
    'svg',
    { class: 'icon', viewBox: '0 0 20 20', 'aria-hidden': 'true', focusable: 'false' },
    makeSvg('path', { d: drawings[name] }),
  );
}
