import type { SeededRandom } from '../../numeric/seeded-random.ts';
import type { Place, Terrain } from '../setting/terrain.ts';

/** What the way is like where the bike is: slope, ground, how much it shakes the bike, whether satellites can be seen. */
export class RoadUnderWheel {
  /** Rise over run under both wheels. */
  grade = 0;
  /** Vibration, 0 smooth to 1 rough. */
  shake = 0;
  private segment = 0;
  private coveredUntilM = -1;
  private nextTunnel = 0;
  private readonly tunnels: readonly Place[];

  constructor(
    private readonly terrain: Terrain,
    private readonly random: SeededRandom,
  ) {
    this.tunnels = terrain.places.filter((place) => place.kind === 'tunnel');
  }

  private get roughness(): number {
    return this.terrain.roughness[this.segment];
  }

  get speedLimitMps(): number {
    return this.terrain.speedLimitMps[this.segment];
  }

  get rollingCoefficient(): number {
    return 0.005 + 0.014 * this.roughness;
  }

  covered(distanceM: number): boolean {
    return distanceM < this.coveredUntilM;
  }

  /** Follows the bike; the slope changes over about 15 m. */
  follow(distanceM: number, stepM: number): void {
    const { startM, grade } = this.terrain;
    while (this.segment + 1 < startM.length && startM[this.segment + 1] <= distanceM) this.segment++;
    this.grade += (grade[this.segment] - this.grade) * Math.min(1, stepM / 15);
  }

  /** Shaking changes more slowly than the mechanics step: called a few times a second. */
  shakeAt(distanceM: number, speedMps: number): void {
    const wanted = this.roughness * Math.min(1.2, speedMps / 6) * (0.5 + this.random.uniform());
    this.shake += 0.5 * (Math.min(1, wanted) - this.shake);
    const tunnel = this.tunnels[this.nextTunnel];
    if (!tunnel || tunnel.atM > distanceM) return;
    this.coveredUntilM = distanceM + tunnel.size;
    this.nextTunnel++;
  }
}
