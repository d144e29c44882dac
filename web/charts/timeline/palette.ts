const names = [
  'ink',
  'quiet',
  'line',
  'line-strong',
  'panel',
  'sunk',
  'accent',
  'accent-wash',
  'trouble',
  'commanded',
  'actual',
  'speed',
  'cadence',
  'power',
] as const;

/** Name of a colour of the style sheet that the timeline draws with. */
export type ColourName = (typeof names)[number];

/** The style sheet's colours as they stand now, light or dark, for drawing on a canvas. */
export type Palette = Readonly<Record<ColourName, string>> & { readonly family: string };

/** Reads the palette in force at an element. */
export function readPalette(place: HTMLElement): Palette {
  const probe = document.createElement('span');
  place.append(probe);
  const colours = Object.fromEntries(
    names.map((name) => {
      probe.style.color = `var(--${name})`;
      return [name, getComputedStyle(probe).color];
    }),
  ) as Record<ColourName, string>;
  const family = getComputedStyle(probe).fontFamily;
  probe.remove();
  return { ...colours, family };
}
