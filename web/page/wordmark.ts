import { make, makeSvg } from '../dom/make.ts';

const wheel =
  'M14.11 4.96L14.76 1.45L17.24 1.45L17.89 4.96L19.88 5.49L22.2 2.78L24.35 4.02L23.16 7.39L24.61 8.84L27.98 7.65L29.22 9.8L26.51 12.12L27.04 14.11L30.55 14.76L30.55 17.24L27.04 17.89L26.51 19.88L29.22 22.2L27.98 24.35L24.61 23.16L23.16 24.61L24.35 27.98L22.2 29.22L19.88 26.51L17.89 27.04L17.24 30.55L14.76 30.55L14.11 27.04L12.12 26.51L9.8 29.22L7.65 27.98L8.84 24.61L7.39 23.16L4.02 24.35L2.78 22.2L5.49 19.88L4.96 17.89L1.45 17.24L1.45 14.76L4.96 14.11L5.49 12.12L2.78 9.8L4.02 7.65L7.39 8.84L8.84 7.39L7.65 4.02L9.8 2.78L12.12 5.49ZM16 10.4a5.6 5.6 0 1 0 0 11.2a5.6 5.6 0 1 0 0-11.2Z';

/** The page's name with its mark, leading to all bikes. */
export const wordmark = (): HTMLElement =>
  make(
    'a',
    { class: 'wordmark', href: '/' },
    makeSvg(
      'svg',
      { viewBox: '0 0 32 32', 'aria-hidden': 'true' },
      makeSvg('path', { 'fill-rule': 'evenodd', d: wheel }),
    ),
    'cogwright',
  );
