import { noCheckRide } from '../../diagnosis/check-ride/plan-check-ride.ts';
import type { Diagnosis } from '../../diagnosis/diagnosis.ts';
import type { Bike } from '../../drivetrain/bike.ts';
import type { HeldBack } from './held-back.ts';

/** The diagnosis with what holds it back as its next step, and nothing in it that would tell causes apart; as it is where nothing does. */
export function holdBack<Found extends Diagnosis>(found: Found, held: HeldBack | null, { actuation }: Bike): Found {
  if (!held) return found;
  const suggestion = held.step(found.suggestion, actuation === 'electronic');
  return {
    ...found,
    suggestion,
    checkRide: noCheckRide,
    separates: null,
    undecided: null,
    anotherSince: null,
    laterCured: null,
  };
}
