import type { XmlVisitor } from './walk-xml.ts';
import { XmlTracks } from './xml-tracks.ts';

/**
 * Reads TCX v2 with its activity extension. Elements are told by local name and place, since prefixes and namespaces are
 * sometimes misspelt: `Trackpoint` holds Time, DistanceMeters, Cadence (crank rpm); anywhere in its `Extensions` stand Speed
 * (m/s) and Watts. RunCadence is steps, no crank. Courses are plans and are not read. TCX carries no gears.
 */
export class TcxVisitor implements XmlVisitor {
  readonly tracks: XmlTracks;
  /** What the file calls itself where it holds no activity. */
  fileType: string | null = null;
  #inActivity = false;
  #inPoint = false;
  #inExtensions = 0;

  constructor(file: string) {
    this.tracks = new XmlTracks(file, 'tcx');
  }

  open(name: string, attributes: ReadonlyMap<string, string>): void {
    if (name === 'activity') {
      this.#inActivity = true;
      this.tracks.beginTrack();
      this.tracks.sport(attributes.get('sport') ?? '');
    } else if (name === 'course') this.fileType = 'course';
    else if (name === 'lap' || name === 'track') this.tracks.draft.beginRun();
    else if (name === 'trackpoint' && this.#inActivity) {
      this.#inPoint = true;
      this.#inExtensions = 0;
      this.tracks.point.begin();
    } else if (name === 'extensions') this.#inExtensions++;
  }

  close(name: string, text: string): void {
    if (name === 'activity') this.#inActivity = false;
    else if (name === 'extensions') this.#inExtensions = Math.max(0, this.#inExtensions - 1);
    if (!this.#inPoint) return;
    if (name === 'trackpoint') {
      this.#inPoint = false;
      this.tracks.addPoint();
    } else if (this.#inExtensions > 0) this.#extension(name, text);
    else this.#field(name, text);
  }

  #field(name: string, text: string): void {
    const { point } = this.tracks;
    if (name === 'time') point.time(text);
    else if (name === 'distancemeters') point.value('distanceM', 'DistanceMeters', text);
    else if (name === 'cadence') point.value('cadenceRpm', 'Cadence', text);
    else if (name === 'latitudedegrees') point.position('lat', text);
    else if (name === 'longitudedegrees') point.position('lon', text);
  }

  #extension(name: string, text: string): void {
    if (name === 'speed') this.tracks.point.value('speedMps', 'Speed', text);
    else if (name === 'watts') this.tracks.point.value('powerW', 'Watts', text);
  }
}
