import { type ScaleLinear, scaleLinear } from 'd3-scale';
import { type Selection, select } from 'd3-selection';
import { type D3ZoomEvent, type ZoomBehavior, zoom, zoomIdentity } from 'd3-zoom';
import type { Layout } from './layout.ts';
import { zoomCentre } from './zoom-centre.ts';

const CLOSEST_VIEW_S = 12;

interface WindowPlan {
  readonly plot: HTMLDivElement;
  readonly durationS: number;
  readonly layout: Layout;
  /** Whether the wheel, a finger or a drag is meant to zoom and move. */
  readonly takes: (event: Event) => boolean;
  readonly onChange: () => void;
}

/** The seconds of the ride that are in view, and every way to change them. */
export class ViewWindow {
  readonly wholeS: number;
  #layout: Layout;
  #transform = zoomIdentity;
  readonly #behaviour: ZoomBehavior<HTMLDivElement, unknown>;
  readonly #plot: Selection<HTMLDivElement, unknown, null, undefined>;

  constructor({ plot, durationS, layout, takes, onChange }: WindowPlan) {
    this.wholeS = Math.max(CLOSEST_VIEW_S, durationS);
    this.#layout = layout;
    this.#behaviour = zoom<HTMLDivElement, unknown>()
      .filter(takes)
      .on('zoom', ({ transform }: D3ZoomEvent<HTMLDivElement, unknown>) => {
        this.#transform = transform;
        onChange();
      });
    this.#plot = select<HTMLDivElement, unknown>(plot).call(this.#behaviour);
  }

  /** From seconds of the whole ride to pixels, as in the overview. */
  wholeScale(): ScaleLinear<number, number> {
    return scaleLinear([0, this.wholeS], [this.#layout.leftPx, this.#layout.rightPx]);
  }

  /** From seconds in view to pixels. */
  scale(): ScaleLinear<number, number> {
    return this.#transform.rescaleX(this.wholeScale());
  }

  /** First and last second in view. */
  seconds(): [fromS: number, toS: number] {
    const [fromS, toS] = this.scale().domain();
    return [fromS, toS];
  }

  /** Keeps the seconds in view when everything stands elsewhere. */
  layOut(layout: Layout): void {
    const [fromS, toS] = this.seconds();
    this.#layout = layout;
    const whole: [[number, number], [number, number]] = [
      [layout.leftPx, 0],
      [layout.rightPx, layout.heightPx],
    ];
    this.#behaviour
      .scaleExtent([1, this.wholeS / CLOSEST_VIEW_S])
      .extent(whole)
      .translateExtent(whole);
    this.show(fromS, toS);
  }

  /** Brings these seconds into view. */
  show(fromS: number, toS: number): void {
    const k = this.wholeS / Math.max(CLOSEST_VIEW_S, toS - fromS);
    const left = this.wholeScale()(fromS);
    this.#plot.call(this.#behaviour.transform, zoomIdentity.translate(this.#layout.leftPx - left * k, 0).scale(k));
  }

  showWhole(): void {
    this.show(0, this.wholeS);
  }

  /** Moves along by a share of what is in view; later where it is positive. */
  move(shareOfView: number): void {
    const [fromS, toS] = this.seconds();
    const shift = Math.max(-fromS, Math.min((toS - fromS) * shareOfView, this.wholeS - toS));
    this.show(fromS + shift, toS + shift);
  }

  /** Comes closer by `factor`, about the first of these seconds that is in view, else about the middle. */
  zoomBy(factor: number, about: readonly (number | null)[]): void {
    const [fromS, toS] = this.seconds();
    const middle = zoomCentre([fromS, toS], about);
    this.show(Math.max(0, middle - (middle - fromS) / factor), Math.min(this.wholeS, middle + (toS - middle) / factor));
  }

  /** Brings a second into the middle, unless it is in view already. */
  bring(timeS: number): void {
    const [fromS, toS] = this.seconds();
    const margin = (toS - fromS) * 0.05;
    if (timeS < fromS + margin || timeS > toS - margin) this.centre(timeS);
  }

  /** Brings a second into the middle, or as near to it as the ends of the ride allow. */
  centre(timeS: number): void {
    const [fromS, toS] = this.seconds();
    const span = toS - fromS;
    const from = Math.max(0, Math.min(timeS - span / 2, this.wholeS - span));
    this.show(from, from + span);
  }
}
