import { type Envelope, eachColumn } from './envelope.ts';
import type { Frame } from './frame.ts';
import { hasValues, isGap, type RideTrack } from './ride-track.ts';
import type { Pen } from './surface.ts';

const dashed = [5, 3];

/** Draws the cog asked for (dashed, thin) and the cog the chain was on (solid, thick), and shades where they differ. */
export function drawGears(frame: Frame): void {
  const { surface, layout, palette, track } = frame;
  const { topPx, heightPx, cogs } = layout.gears;
  const y = (cog: number): number => topPx + heightPx - ((cog + 0.5) / cogs) * heightPx;
  const every = heightPx / cogs < 13 ? 2 : 1;
  surface.stroke(
    (pen) => {
      for (let cog = 0; cog < cogs; cog++) {
        pen.moveTo(layout.leftPx, y(cog));
        pen.lineTo(layout.rightPx, y(cog));
      }
    },
    { colour: palette.line, widthPx: 1 },
  );
  for (let cog = cogs - 1; cog >= 0; cog -= every)
    surface.text(String(track.cassette[cog]), layout.leftPx - 7, y(cog), { colour: palette.quiet, anchor: 'end' });
  surface.text('Cog, teeth', layout.leftPx, topPx - 10, { colour: palette.quiet });
  drawKey(frame);
  surface.inside(layout.leftPx, topPx, layout.rightPx - layout.leftPx, heightPx, () => {
    if (!frame.dense) shadeDifference(frame, y);
    drawLost(frame);
    const drawActual = (): void =>
      surface.stroke((pen) => traceSteps(frame, track.chain, y, pen), {
        colour: palette.actual,
        widthPx: frame.dense ? 1.4 : 3,
      });
    const drawCommanded = (): void =>
      surface.stroke((pen) => traceSteps(frame, track.commanded, y, pen), {
        colour: palette.commanded,
        widthPx: frame.dense ? 1 : 1.5,
        dash: frame.dense ? undefined : dashed,
      });
    // Far out the two all but cover one another: what the chain did then lies on top.
    for (const draw of frame.dense ? [drawCommanded, drawActual] : [drawActual, drawCommanded]) draw();
  });
}

/** The lines that are drawn and what each is called: the dashes are left out where they would melt into one line. */
export const gearKey = (track: RideTrack, dense: boolean) =>
  [
    {
      words: 'asked for',
      widthPx: 1.5,
      colour: 'commanded' as const,
      dash: dense ? undefined : dashed,
      line: track.commanded,
    },
    { words: 'chain on', widthPx: 3, colour: 'actual' as const, dash: undefined, line: track.chain },
  ].filter(({ line }) => hasValues(line));

/** Width that the words for a spell without drive need, px. */
const LOST_WORDS_PX = 62;

/** Marks where the chain was on no cog, in words where there is room for them. */
function drawLost({ surface, x, layout, palette, lost }: Frame): void {
  const { topPx, heightPx } = layout.gears;
  for (const { fromS, toS } of lost) {
    const [left, right] = [x(fromS), x(toS)];
    const width = Math.max(2, right - left);
    surface.fill((pen) => pen.rect(left, topPx, width, heightPx), palette.trouble, 0.14);
    surface.stroke((pen) => pen.rect(left, topPx, width, heightPx), {
      colour: palette.trouble,
      widthPx: 1,
      dash: [2, 2],
    });
    const [from, to] = [Math.max(left, layout.leftPx), Math.min(right, layout.rightPx)];
    if (to - from > LOST_WORDS_PX)
      surface.text('drive lost', (from + to) / 2, topPx + heightPx / 2, { colour: palette.trouble, anchor: 'middle' });
  }
}

/** Says which line is which, at the right above the gears. */
function drawKey({ surface, layout, palette, track, dense }: Frame): void {
  const y = layout.gears.topPx - 10;
  let right = layout.rightPx;
  for (const { words, widthPx, colour, dash } of gearKey(track, dense)) {
    surface.text(words, right, y, { colour: palette.quiet, anchor: 'end' });
    const end = right - words.length * 6 - 8;
    surface.stroke(
      (pen) => {
        pen.moveTo(end - 20, y);
        pen.lineTo(end, y);
      },
      { colour: palette[colour], widthPx, dash },
    );
    right = end - 34;
  }
}

function traceSteps(
  { x, track, first, last, dense }: Frame,
  column: Envelope,
  y: (cog: number) => number,
  pen: Pen,
): void {
  if (dense) {
    eachColumn(
      column,
      first,
      last,
      (sample) => x(track.timeS[sample]),
      (px, low, high) => {
        pen.moveTo(px, y(low) + 1.2);
        pen.lineTo(px, y(high) - 1.2);
      },
    );
    return;
  }
  let before = Number.NaN;
  for (let i = first; i < last; i++) {
    const cog = column.values[i];
    if (!Number.isNaN(cog)) {
      const px = x(track.timeS[i]);
      if (Number.isNaN(before) || isGap(track, i)) pen.moveTo(px, y(cog));
      else if (before !== cog) {
        pen.lineTo(px, y(before));
        pen.lineTo(px, y(cog));
      }
      pen.lineTo(i + 1 < last && !isGap(track, i + 1) ? x(track.timeS[i + 1]) : px + 1, y(cog));
    }
    before = cog;
  }
}

function shadeDifference({ surface, x, track, palette, first, last }: Frame, y: (cog: number) => number): void {
  const asked = track.commanded.values;
  const been = track.chain.values;
  surface.fill(
    (pen) => {
      for (let i = first; i + 1 < last; i++) {
        if (Number.isNaN(asked[i]) || Number.isNaN(been[i]) || asked[i] === been[i] || isGap(track, i + 1)) continue;
        const left = x(track.timeS[i]);
        const top = Math.min(y(asked[i]), y(been[i]));
        pen.rect(left, top, x(track.timeS[i + 1]) - left, Math.abs(y(asked[i]) - y(been[i])));
      }
    },
    palette.trouble,
    0.22,
  );
}
