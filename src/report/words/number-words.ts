import { percent } from '../../numeric/percent.ts';

/** How sure a single finding is: `81 % sure`; never wholly. */
export function sure(confidence: number): string {
  return `${percent(Math.min(confidence, 0.999))} sure`;
}

/** The same of an event, or that its rider told of it. */
export const sureOf = (event: { readonly confidence: number; readonly toldByRider?: true | undefined }): string =>
  event.toldByRider ? 'told by the rider' : sure(event.confidence);

/** A rate with its 95 % interval: `12 % (4 to 29 %)`, or `none judged`. */
export function rateWithInterval(rate: { troubleRate: number | null; low: number; high: number }): string {
  if (rate.troubleRate === null) return 'none judged';
  return `${percent(rate.troubleRate)} (${Math.round(rate.low * 100)} to ${Math.round(rate.high * 100)} %)`;
}

/** Length of time: `45 min`, `3 h 05 min`. */
export function durationWords(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  if (minutes < 60) return `${minutes} min`;
  return `${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, '0')} min`;
}

/** A millimetre value with its sign: `+0.35 mm`, `-0.20 mm`. */
export function signedMm(value: number): string {
  return `${value > 0 ? '+' : ''}${value.toFixed(2)} mm`;
}
