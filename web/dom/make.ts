type Child = Node | string | number | null | undefined | false | readonly Child[];
type Value = string | number | boolean | null | undefined;
type Listeners = { [Name in keyof HTMLElementEventMap]?: (event: HTMLElementEventMap[Name]) => void };

const svgSpace = 'http://www.w3.org/2000/svg';

function setAttributes(element: Element, attributes: Record<string, Value>): void {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    element.setAttribute(name, value === true ? '' : String(value));
  }
}

/** Adds children to `parent`; text always as text, never as markup. `null`, `undefined` and `false` are left out. */
function addTo(parent: Node, ...children: Child[]): void {
  for (const child of children) {
    if (child === null || child === undefined || child === false) continue;
    if (Array.isArray(child)) addTo(parent, ...child);
    else parent.appendChild(child instanceof Node ? child : document.createTextNode(String(child)));
  }
}

/** Makes an HTML element. `false`, `null` and `undefined` leave an attribute out; `true` sets it empty. */
export function make<Name extends keyof HTMLElementTagNameMap>(
  name: Name,
  attributes: Record<string, Value> = {},
  ...children: Child[]
): HTMLElementTagNameMap[Name] {
  const element = document.createElement(name);
  setAttributes(element, attributes);
  addTo(element, ...children);
  return element;
}

/** Makes an SVG element. */
export function makeSvg<Name extends keyof SVGElementTagNameMap>(
  name: Name,
  attributes: Record<string, Value> = {},
  ...children: Child[]
): SVGElementTagNameMap[Name] {
  const element = document.createElementNS(svgSpace, name) as SVGElementTagNameMap[Name];
  setAttributes(element, attributes);
  addTo(element, ...children);
  return element;
}

/** Adds listeners to an element and returns it. */
export function listen<Kind extends HTMLElement>(element: Kind, listeners: Listeners): Kind {
  for (const [name, listener] of Object.entries(listeners)) element.addEventListener(name, listener as EventListener);
  return element;
}

/** Replaces everything inside `parent`. */
export function fill(parent: Element, ...children: Child[]): void {
  parent.replaceChildren();
  addTo(parent, ...children);
}

export type { Child };
