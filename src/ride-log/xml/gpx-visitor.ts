import type { XmlVisitor } from './walk-xml.ts';
import { XmlTracks } from './xml-tracks.ts';

/**
 * Reads GPX 1.1 with the track-point and power extensions, and GPX 1.0 with its bare `speed`. Elements are told by local
 * name and place: anywhere in the `extensions` of a `trkpt` stand `speed` (m/s), `cad` or `cadence` (crank rpm), `power`, `PowerInWatts` or
 * `watts`. Routes and way points are plans and are not read. GPX carries no gears.
 */
export class GpxVisitor implements XmlVisitor {
  readonly tracks: XmlTracks;
  /** What the file calls itself where it holds no track. */
  fileType: string | null = null;
  #depth = 0;
  /** Depth of the track that is open; NaN outside. */
  #trackDepth = Number.NaN;
  #inPoint = false;
  #inExtensions = 0;

  constructor(file: string) {
    this.tracks = new XmlTracks(file, 'gpx');
  }

  open(name: string, attributes: ReadonlyMap<string, string>): void {
    this.#depth++;
    if (name === 'trk') {
      this.#trackDepth = this.#depth;
      this.tracks.beginTrack();
    } else if (name === 'trkseg') this.tracks.draft.beginRun();
    else if (name === 'rte') this.fileType ??= 'route';
    else if (name === 'trkpt') {
      this.#inPoint = true;
      this.#inExtensions = 0;
      this.tracks.point.begin();
      this.tracks.point.position('lat', attributes.get('lat') ?? '');
      this.tracks.point.position('lon', attributes.get('lon') ?? '');
    } else if (name === 'extensions') this.#inExtensions++;
  }

  close(name: string, text: string): void {
    const inTrackItself = this.#depth-- === this.#trackDepth + 1;
    if (name === 'trk') this.#trackDepth = Number.NaN;
    else if (name === 'extensions') this.#inExtensions = Math.max(0, this.#inExtensions - 1);
    if (!this.#inPoint) {
      // a link and other elements of a track have a type too
      if (name === 'type' && inTrackItself) this.tracks.sport(text);
      return;
    }
    if (name === 'trkpt') {
      this.#inPoint = false;
      this.tracks.addPoint();
    } else if (name === 'speed') this.tracks.point.value('speedMps', 'speed', text);
    else if (this.#inExtensions > 0) this.#extension(name, text);
    else if (name === 'time') this.tracks.point.time(text);
  }

  #extension(name: string, text: string): void {
    if (name === 'cad' || name === 'cadence') this.tracks.point.value('cadenceRpm', name, text);
    else if (name === 'power' || name === 'powerinwatts' || name === 'watts')
      this.tracks.point.value('powerW', name, text);
  }
}
