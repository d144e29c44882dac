import { notCycling, sportKind } from '../cycling-sport.ts';
import type { RideDraft } from '../ride-draft.ts';
import { type FitMessage, fitTimeMs } from './fit-messages.ts';

interface Session {
  /** NaN where the file does not say. */
  readonly startMs: number;
  /** NaN where the file does not say. */
  readonly lengthMs: number;
  readonly sport: string;
  readonly subSport: string | null;
}

/** From when to when a session lasted, Unix ms, its end excluded. */
interface Stretch {
  readonly startMs: number;
  readonly endMs: number;
}

const firstKnown = (...values: (number | undefined)[]): number =>
  values.find((value): value is number => value !== undefined && !Number.isNaN(value)) ?? NaN;
const word = (value: unknown): string | null => (value === undefined ? null : String(value).toLowerCase());

/** What the session and sport messages of a FIT file say. */
export class FitSessions {
  readonly #sessions: Session[] = [];
  #sport: string | null = null;
  #subSport: string | null = null;

  session(message: FitMessage): void {
    const startMs = fitTimeMs(message.start_time);
    const sport = word(message.sport);
    if (sport === null) return;
    const lengthMs = (message.total_elapsed_time ?? NaN) * 1000;
    this.#sessions.push({ startMs, lengthMs, sport, subSport: word(message.sub_sport) });
  }

  sport(message: FitMessage): void {
    if (this.#sport !== null) return;
    this.#sport = word(message.sport);
    this.#subSport = word(message.sub_sport);
  }

  /** Sets the draft's sport: that of the first riding session, else of the first, else of the sport message. */
  describe(draft: RideDraft): void {
    const told = this.#ofKind('cycling')[0] ?? this.#sessions[0];
    draft.sport = told?.sport ?? this.#sport;
    draft.subSport = told?.subSport ?? this.#subSport;
  }

  /**
   * The stretches of riding in a file of several sports, as a triathlon is, or null where all of it is one ride. Throws
   * `not-cycling` where the file names sports and none of them is, or may be, cycling.
   */
  riding(file: string): Stretch[] | null {
    const riding = this.#ofKind('cycling');
    const others = this.#ofKind('other');
    if (riding.length === 0 && others.length > 0) throw notCycling(file, others[0].sport);
    if (this.#sessions.length === 0 && kindOf(this.#sport, this.#subSport) === 'other') {
      throw notCycling(file, this.#sport ?? '');
    }
    return others.length === 0 ? null : riding.map((session) => this.#stretch(session));
  }

  /** What a session leaves open its neighbours bound: it begins where the one before it ended, and lasts until the next begins. */
  #stretch(session: Session): Stretch {
    const at = this.#sessions.indexOf(session);
    const before = this.#sessions[at - 1];
    const next = this.#sessions.slice(at + 1).find(({ startMs }) => !Number.isNaN(startMs));
    const startMs = firstKnown(
      session.startMs,
      before && before.startMs + before.lengthMs,
      next && next.startMs - session.lengthMs,
      before?.startMs,
      -Infinity,
    );
    const ownEndMs = startMs === -Infinity ? NaN : startMs + session.lengthMs;
    return { startMs, endMs: firstKnown(ownEndMs, next?.startMs, Infinity) };
  }

  #ofKind(kind: ReturnType<typeof sportKind>): Session[] {
    return this.#sessions.filter(({ sport, subSport }) => kindOf(sport, subSport) === kind);
  }
}

/** A sub sport may name riding where the sport itself says nothing. */
function kindOf(sport: string | null, subSport: string | null): ReturnType<typeof sportKind> {
  const kind = sportKind(sport);
  return kind === 'unsaid' && sportKind(subSport) === 'cycling' ? 'cycling' : kind;
}
