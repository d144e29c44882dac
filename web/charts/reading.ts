import { announce } from '../dom/announce.ts';
import { make } from '../dom/make.ts';

interface Mark {
  readonly element: SVGGraphicsElement;
  readonly text: string;
}

const REACH_PX = 28;

/** Takes the marks' titles off the drawing, so that the browser does not show a second tooltip over ours. */
function collectMarks(svg: SVGSVGElement): Mark[] {
  return [...svg.querySelectorAll<SVGGraphicsElement>('.mark')].flatMap((element) => {
    const title = [...element.children].find((child) => child.tagName.toLowerCase() === 'title');
    title?.remove();
    const text = title?.textContent?.trim();
    return text ? [{ element, text }] : [];
  });
}

function distance(box: DOMRect, x: number, y: number): number {
  const dx = Math.max(box.left - x, 0, x - box.right);
  const dy = Math.max(box.top - y, 0, y - box.bottom);
  return Math.hypot(dx, dy);
}

/** Reading of a chart's marks by pointer (the nearest one) and by keyboard (arrows, Home, End, Escape). */
export class Reading {
  readonly #plot: HTMLElement;
  readonly #tip: HTMLElement;
  #marks: Mark[] = [];
  #at = -1;

  /** `plot` holds the svg and takes the focus. */
  constructor(plot: HTMLElement) {
    this.#plot = plot;
    this.#tip = make('div', { class: 'tip', hidden: true, 'aria-hidden': 'true' });
    plot.append(this.#tip);
    plot.addEventListener('pointermove', (event) => this.#point(event));
    plot.addEventListener('pointerdown', (event) => this.#point(event));
    plot.addEventListener('pointerleave', () => this.#leave());
    plot.addEventListener('keydown', (event) => this.#press(event));
    plot.addEventListener('blur', () => this.#leave());
  }

  /** To be called after each drawing. */
  read(svg: SVGSVGElement): void {
    this.#leave();
    this.#marks = collectMarks(svg);
  }

  #point(event: PointerEvent): void {
    let best = -1;
    let bestDistance = REACH_PX;
    this.#marks.forEach(({ element }, i) => {
      const d = distance(element.getBoundingClientRect(), event.clientX, event.clientY);
      if (d < bestDistance) {
        best = i;
        bestDistance = d;
      }
    });
    if (best < 0) this.#leave();
    else this.#show(best);
  }

  #press(event: KeyboardEvent): void {
    const last = this.#marks.length - 1;
    const next: Record<string, number> = {
      ArrowRight: Math.min(this.#at + 1, last),
      ArrowDown: Math.min(this.#at + 1, last),
      ArrowLeft: Math.max(this.#at - 1, 0),
      ArrowUp: Math.max(this.#at - 1, 0),
      Home: 0,
      End: last,
    };
    if (event.key === 'Escape' && this.#at >= 0) {
      event.preventDefault();
      this.#leave();
    }
    if (!(event.key in next) || last < 0) return;
    event.preventDefault();
    this.#show(next[event.key]);
    announce(this.#marks[this.#at].text);
  }

  #show(index: number): void {
    if (index === this.#at) return;
    this.#marks[this.#at]?.element.classList.remove('is-read');
    this.#at = index;
    const { element, text } = this.#marks[index];
    element.classList.add('is-read');
    this.#tip.textContent = text;
    this.#tip.hidden = false;
    const plot = this.#plot.getBoundingClientRect();
    const box = element.getBoundingClientRect();
    const tip = this.#tip.getBoundingClientRect();
    const middle = (box.left + box.right) / 2 - plot.left - tip.width / 2;
    const above = box.top - plot.top - tip.height - 8;
    this.#tip.style.left = `${Math.max(0, Math.min(middle, plot.width - tip.width))}px`;
    this.#tip.style.top = `${above >= -tip.height ? above : box.bottom - plot.top + 8}px`;
  }

  #leave(): void {
    this.#marks[this.#at]?.element.classList.remove('is-read');
    this.#at = -1;
    this.#tip.hidden = true;
  }
}
