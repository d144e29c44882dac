const PX_PER_MM = 96 / 25.4;
/** What an A4 page holds between its margins (`@page` in the style sheet). */
const PAGE_WIDTH_PX = 186 * PX_PER_MM;
const PAGE_HEIGHT_PX = 277 * PX_PER_MM;
/** A page of which this much is filled fits a letter page, too, which is shorter and no narrower. */
const SHORTER_PAGE_PX = 259 * PX_PER_MM;
/** Printers and rounding may need this much. */
const SPARE_PX = 4;

/** How a sheet can be printed, as classes: the first that fits is taken, the last where none does. */
const ways = [
  { className: 'is-roomy', heightPx: SHORTER_PAGE_PX },
  { className: 'is-close', heightPx: PAGE_HEIGHT_PX },
  { className: 'is-without-chart', heightPx: PAGE_HEIGHT_PX },
] as const;

/** Every list of rules that holds for paper alone. */
const printRules = (): CSSMediaRule[] =>
  [...document.styleSheets]
    .flatMap((styles) => [...styles.cssRules])
    .filter((rule): rule is CSSMediaRule => rule instanceof CSSMediaRule && rule.media.mediaText === 'print');

/** What `measure` gives while the screen shows all as on paper, which nobody sees: the screen is as before when it next paints. */
function asOnPaper<Measure>(measure: () => Measure): Measure {
  const rules = printRules();
  const { scrollX, scrollY } = window;
  for (const { media } of rules) media.mediaText = 'all';
  try {
    return measure();
  } finally {
    for (const { media } of rules) media.mediaText = 'print';
    window.scrollTo({ left: scrollX, top: scrollY, behavior: 'instant' });
  }
}

/** Gives a sheet that stands in the page the most readable way to be printed with which it stays on one page, by measuring it. */
export function fitToPage(sheet: HTMLElement): void {
  const names = ways.map(({ className }) => className);
  asOnPaper(() => {
    sheet.style.width = `${PAGE_WIDTH_PX}px`;
    for (const { className, heightPx } of ways) {
      sheet.classList.remove(...names);
      sheet.classList.add(className);
      if (sheet.getBoundingClientRect().height <= heightPx - SPARE_PX) break;
    }
    sheet.style.removeProperty('width');
  });
}
