import { counted } from '../../numeric/counted.ts';
import { notCycling, sportKind } from '../cycling-sport.ts';
import { RideDraft } from '../ride-draft.ts';
import { XmlPoint } from './xml-point.ts';

/**
 * What TCX and GPX readers share: activities or tracks, each with a sport, whose points go into one draft. Points of
 * sports other than cycling are only counted.
 */
export class XmlTracks {
  readonly draft: RideDraft;
  readonly point = new XmlPoint();
  #otherSport: string | null = null;
  #inOther = false;
  #leftOut = 0;

  constructor(file: string, format: 'tcx' | 'gpx') {
    this.draft = new RideDraft(file, format);
  }

  /** A new activity or track begins, of a sport not told yet. */
  beginTrack(): void {
    this.#inOther = false;
    this.draft.beginRun();
  }

  sport(name: string): void {
    const sport = name.trim().toLowerCase();
    this.#inOther = sportKind(sport) === 'other';
    if (this.#inOther) this.#otherSport ??= sport;
    else if (sport !== '') this.draft.sport ??= sport;
  }

  addPoint(): void {
    if (this.#inOther) this.#leftOut++;
    else this.point.addTo(this.draft);
  }

  /** Throws `not-cycling` where every point is of another sport. */
  end(): RideDraft {
    if (this.draft.length === 0 && this.#otherSport !== null) throw notCycling(this.draft.file, this.#otherSport);
    if (this.#leftOut > 0) {
      const message = `${counted(this.#leftOut, 'record')} of other sports in the same file: left out.`;
      this.draft.warn('other-sports-left-out', message);
    }
    const bad = this.point.badValues();
    if (bad) this.draft.warn('bad-values', bad);
    return this.draft;
  }
}
