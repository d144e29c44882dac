import { makeSvg } from '../dom/make.ts';
import { type Standing, standingWords } from '../words/state-words.ts';

/** Each standing has its own shape, so that colour never stands alone: square on its corner, triangle, half disc, disc with tick, broken ring. */
const shapes = {
  look: () => [
    makeSvg('path', { class: 'solid', d: 'M14 1 27 14 14 27 1 14Z' }),
    makeSvg('path', { class: 'cut', d: 'M14 7.5v7.5M14 19v.4' }),
  ],
  service: () => [
    makeSvg('path', { class: 'solid', d: 'M14 3 26 24.5H2Z' }),
    makeSvg('path', { class: 'cut', d: 'M14 11v6.5M14 20.4v.4' }),
  ],
  watch: () => [
    makeSvg('circle', { class: 'ring', cx: 14, cy: 14, r: 10.5 }),
    makeSvg('path', { class: 'solid', d: 'M14 3.5a10.5 10.5 0 0 0 0 21Z' }),
  ],
  fine: () => [
    makeSvg('circle', { class: 'solid', cx: 14, cy: 14, r: 11.5 }),
    makeSvg('path', { class: 'cut', d: 'm8.6 14.4 3.7 3.8 7.2-8' }),
  ],
  unknown: () => [makeSvg('circle', { class: 'ring broken', cx: 14, cy: 14, r: 10.5 })],
};

/** The drawing of how a bike stands; always stands beside its word, so hidden from a screen reader. */
export function stateMark(standing: Standing): SVGSVGElement {
  const { key } = standingWords[standing];
  return makeSvg(
    'svg',
    { class: `state-mark is-${key}`, viewBox: '0 0 28 28', 'aria-hidden': 'true', focusable: 'false' },
    ...shapes[key](),
  );
}
