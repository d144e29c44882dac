import { counted } from '../../src/numeric/counted.ts';
import type { BikeSummary } from '../api/answers.ts';
import { announce } from '../dom/announce.ts';
import { freshId } from '../dom/fresh-id.ts';
import { fill, listen, make } from '../dom/make.ts';
import { icon } from '../page/icons.ts';
import { stateMark } from '../page/state-mark.ts';
import { noteQuery } from '../router/note-query.ts';
import { groupWords, isIn, type RowGroup, rowGroups } from './row-group.ts';
import { orderOf, type RowOrder, rowOrders } from './row-order.ts';

interface Row {
  readonly bike: BikeSummary;
  readonly element: HTMLElement;
}

const WORTH_FROM = 4;

function groupMark(group: RowGroup): SVGSVGElement | null {
  if (group === 'under way') return null;
  return group === 'set aside' ? icon('tag') : stateMark(group);
}

/** A button that picks a group, with how many bikes are in it; null: all of them. */
function groupChoice(group: RowGroup | null, count: number, click: () => void): HTMLButtonElement {
  const button = make(
    'button',
    { type: 'button', class: 'choice', value: group ?? '' },
    group && groupMark(group),
    group ? `${groupWords(group).label} ` : 'All ',
    make('span', { class: 'count' }, count),
  );
  return listen(button, { click });
}

/** A choice of bikes. */
export interface RowFilter {
  readonly element: HTMLElement;
  /** The order picked, for so many bikes: by need where they are too few to be picked from. */
  order(bikes: number): RowOrder;
  /** Takes the rows over, in their order, and hides those that do not fit. */
  show(rows: readonly Row[]): void;
}

/**
 * Picks rows by state and by name, and their order; keeps its choice when the rows are drawn again, and in the address. Hidden while
 * there are few bikes.
 *
 * @param reorder called when another order was picked
 */
export const makeRowFilter = (query: URLSearchParams, reorder: () => void): RowFilter =>
  new GroupAndNameFilter(query, reorder);

const groupOfKey = (key: string | null): RowGroup | null =>
  rowGroups.find((group) => groupWords(group).key === key) ?? null;

/** Where to pick an order. */
const orderChoice = (picked: RowOrder): HTMLSelectElement =>
  make(
    'select',
    { id: freshId('order') },
    ...rowOrders.map(({ key, label }) => make('option', { value: key, selected: key === picked }, label)),
  );

const inlineField = (label: string, control: HTMLElement): HTMLElement =>
  make('div', { class: 'field is-inline' }, make('label', { for: control.id }, label), control);

class GroupAndNameFilter implements RowFilter {
  readonly element: HTMLElement;
  readonly #name: HTMLInputElement;
  readonly #states = make('div', { class: 'row', role: 'group', 'aria-label': 'Show' });
  readonly #none = make('p', { class: 'nothing', hidden: true }, 'No bike fits. Choose “All” or clear the name.');
  #rows: readonly Row[] = [];
  readonly #order: HTMLSelectElement;
  #picked: RowGroup | null;

  constructor(query: URLSearchParams, reorder: () => void) {
    this.#picked = groupOfKey(query.get('state'));
    this.#name = make('input', { id: freshId('name'), type: 'search', autocomplete: 'off', value: query.get('name') });
    listen(this.#name, { input: () => this.#changed() });
    this.#order = orderChoice(orderOf(query.get('order')));
    listen(this.#order, {
      change: () => {
        this.#changed();
        reorder();
      },
    });
    this.element = make(
      'div',
      { class: 'row-filter' },
      this.#states,
      make('div', { class: 'row' }, inlineField('Order', this.#order), inlineField('Name', this.#name)),
      this.#none,
    );
  }

  order(bikes: number): RowOrder {
    // what cannot be seen and changed orders nothing
    return bikes < WORTH_FROM ? rowOrders[0].key : (this.#order.value as RowOrder);
  }

  show(rows: readonly Row[]): void {
    this.#rows = rows;
    const present = rowGroups.filter((group) => rows.some(({ bike }) => isIn(group, bike)));
    if (this.#picked && !present.includes(this.#picked)) this.#picked = null;
    this.#drawStates(present);
    this.element.hidden = rows.length < WORTH_FROM;
    this.#apply();
  }

  /** Draws the buttons anew; the one that had the focus keeps it. */
  #drawStates(present: readonly RowGroup[]): void {
    const active = document.activeElement;
    const focused = this.#states.contains(active) ? (active as HTMLButtonElement).value : null;
    const count = (group: RowGroup): number => this.#rows.filter(({ bike }) => isIn(group, bike)).length;
    fill(
      this.#states,
      this.#choice(null, this.#rows.length),
      ...present.map((group) => this.#choice(group, count(group))),
    );
    if (focused !== null)
      this.#buttons()
        .find((button) => button.value === focused)
        ?.focus();
  }

  #choice(group: RowGroup | null, count: number): HTMLButtonElement {
    return groupChoice(group, count, () => {
      this.#picked = group;
      this.#changed();
    });
  }

  #changed(): void {
    const order = this.order(this.#rows.length);
    noteQuery({
      state: this.#picked ? groupWords(this.#picked).key : '',
      name: this.#name.value.trim(),
      order: order === rowOrders[0].key ? '' : order,
    });
    this.#apply();
  }

  #buttons(): HTMLButtonElement[] {
    return [...this.#states.querySelectorAll('button')];
  }

  #apply(): void {
    // what cannot be seen and changed must not hide a bike
    const [wanted, picked] = this.element.hidden ? ['', null] : [this.#name.value.trim().toLowerCase(), this.#picked];
    let shown = 0;
    for (const { bike, element } of this.#rows) {
      const isPicked = !picked || isIn(picked, bike);
      const fits = isPicked && bike.bike.name.toLowerCase().includes(wanted);
      element.hidden = !fits;
      if (fits) shown += 1;
    }
    this.#none.hidden = shown > 0 || this.#rows.length === 0;
    for (const button of this.#buttons())
      button.setAttribute('aria-pressed', String(button.value === (this.#picked ?? '')));
    if (picked || wanted) announce(`${counted(shown, 'bike')} shown`);
  }
}
