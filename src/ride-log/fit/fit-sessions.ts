import { notCycling, sportKind } from '../cycling-sport.ts';
import type { RideDraft } from '../ride-draft.ts';
import { type FitMessage, fitTimeMs } from './fit-messages.ts';

interface Session {
  readonly startMs: number;
  readonly endMs: number;
  readonly sport: string;
  readonly subSport: string | null;
}

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
    const lengthMs = (message.total_elapsed_time ?? Infinity) * 1000;
    this.#sessions.push({ startMs, endMs: startMs + lengthMs, sport, subSport: word(message.sub_sport) });
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
  riding(file: string): { startMs: number; endMs: number }[] | null {
    const riding = this.#ofKind('cycling');
    const others = this.#ofKind('other');
    if (riding.length === 0 && others.length > 0) throw notCycling(file, others[0].sport);
    if (this.#sessions.length === 0 && kindOf(this.#sport, this.#subSport) === 'other') {
      throw notCycling(file, this.#sport ?? '');
    }
    return others.length === 0 ? null : riding.map(({ startMs, endMs }) => ({ startMs, endMs }));
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
