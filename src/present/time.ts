/** Times as people read them: UTC of the clock, and hours and minutes since take-off. */

/** Seconds as h:mm to the nearest minute, such as "1:34". */
export function hoursMinutes(seconds: number): string {
  const minutes = Math.round(Math.abs(seconds) / 60);
  const text = `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')}`;
  return seconds < 0 && minutes > 0 ? `−${text}` : text;
}

/** Seconds as m:ss to the nearest second, such as "12:40". */
export function minutesSeconds(seconds: number): string {
  const whole = Math.round(Math.abs(seconds));
  const text = `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
  return seconds < 0 && whole > 0 ? `−${text}` : text;
}

/** Seconds as h:mm:ss to the nearest second, such as "1:34:20". */
export function hoursMinutesSeconds(seconds: number): string {
  const whole = Math.round(Math.abs(seconds));
  const minute = String(Math.floor(whole / 60) % 60).padStart(2, '0');
  const text = `${Math.floor(whole / 3600)}:${minute}:${String(whole % 60).padStart(2, '0')}`;
  return seconds < 0 && whole > 0 ? `−${text}` : text;
}

/** Milliseconds since 1970 of an ISO 8601 moment in UTC. */
export function moment(iso: string): number {
  const milliseconds = Date.parse(iso);
  if (Number.isNaN(milliseconds)) throw new RangeError(`"${iso}" is not a moment in ISO 8601`);
  return milliseconds;
}

/** "16:05Z" some seconds after an ISO 8601 moment, to the nearest minute. */
export function clock(iso: string, afterS = 0): string {
  return `${new Date(Math.round((moment(iso) + afterS * 1000) / 60_000) * 60_000).toISOString().slice(11, 16)}Z`;
}

/** "16:05:20Z" some seconds after an ISO 8601 moment, to the nearest second. */
export function clockSeconds(iso: string, afterS: number): string {
  return `${new Date(Math.round(moment(iso) / 1000 + afterS) * 1000).toISOString().slice(11, 19)}Z`;
}

/** "2026-02-23 16:05Z". */
export function dateAndClock(iso: string): string {
  const text = new Date(Math.round(moment(iso) / 60_000) * 60_000).toISOString();
  return `${text.slice(0, 10)} ${text.slice(11, 16)}Z`;
}
