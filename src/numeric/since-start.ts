/**
 * A time since a ride's start in words.
 *
 * @example sinceStart(3084) // '51:24'
 */
export function sinceStart(seconds: number): string {
  const whole = Math.round(seconds);
  const two = (value: number): string => String(value).padStart(2, '0');
  const hours = Math.floor(whole / 3600);
  const minutes = Math.floor(whole / 60) % 60;
  return `${hours > 0 ? `${hours}:${two(minutes)}` : minutes}:${two(whole % 60)}`;
}
