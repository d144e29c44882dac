import { keepingFocus } from '../dom/keeping-focus.ts';
import { fill, listen, make } from '../dom/make.ts';
import type { BikePage } from './bike-page.ts';

/** A part of a bike's page; null where it has nothing to say. */
export type Section = (page: BikePage) => HTMLElement | null;

/**
 * Where a section stands. A form that is being filled in is not taken from under the reader's hands: what came in
 * meanwhile is drawn once the form is gone.
 */
export class SectionPlace {
  readonly element: HTMLElement;
  readonly #section: Section;
  /** What a form keeps from being drawn. */
  #held: BikePage | null = null;
  /** The form that the reader has last put something into. */
  #filledIn: HTMLFormElement | null = null;

  constructor(name: string, section: Section) {
    this.element = make('div', { class: `bike-part is-${name}` });
    this.#section = section;
    const changed = (): void => {
      const held = this.#held;
      if (held) keepingFocus(this.element, () => this.draw(held));
    };
    listen(this.element, {
      input: ({ target }) => {
        this.#filledIn = (target as Element).closest('form');
      },
    });
    new MutationObserver(changed).observe(this.element, { childList: true, subtree: true });
  }

  draw(page: BikePage): void {
    this.#held = this.element.querySelector('form') ? page : null;
    if (!this.#held) this.drawAnyway(page);
  }

  /** The form that stands open here and was filled in, if only in part; null where there is none. */
  get filledIn(): HTMLFormElement | null {
    return this.element.contains(this.#filledIn) ? this.#filledIn : null;
  }

  /** Draws even over a form. */
  drawAnyway(page: BikePage): void {
    this.#held = null;
    fill(this.element, this.#section(page));
  }
}
