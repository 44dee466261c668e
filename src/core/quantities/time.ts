/** Moments: ISO 8601 in UTC with its Z, held as seconds since 1970-01-01T00:00Z (leap seconds not counted). */
import { QuantityError } from './errors.ts';

const allowed = ['2026-02-23T16:00Z'];

/** Seconds since 1970 of "2020-02-23T16:00Z" or "2020-02-23T16:00:30Z"; throws `QuantityError`, also without the Z. */
export function readTime(text: string, name = 'time'): number {
  const match = /^(\d{4})-(\d\d)-(\d\d)[T ](\d\d):(\d\d)(?::(\d\d(?:\.\d+)?))?(Z?)$/.exec(text.trim());
  if (!match) throw new QuantityError(name, text, 'is not a date and time', allowed);
  if (match[7] === '') throw new QuantityError(name, text, 'does not say that it is UTC', allowed);
  const [year, month, day, hour, minute] = match.slice(1, 6).map(Number);
  const second = Number(match[6] ?? 0);
  const midnight = Date.UTC(year, month - 1, day) / 1000;
  const back = showTime(midnight).slice(0, 10);
  if (back !== `${match[1]}-${match[2]}-${match[3]}` || hour > 23 || minute > 59 || second >= 60) {
    throw new QuantityError(name, text, 'is not in the calendar', allowed);
  }
  return midnight + hour * 3600 + minute * 60 + second;
}

/** A moment as "2020-02-23T16:00Z", with seconds where they are not 0. */
export function showTime(timeS: number): string {
  const days = Math.floor(timeS / 86400);
  const rest = Math.round((timeS - days * 86400) * 1000) / 1000;
  const [year, month, day] = civil(days);
  const second = rest % 60;
  const minute = Math.floor(rest / 60) % 60;
  const hour = Math.floor(rest / 3600);
  const tail = second === 0 ? '' : `:${second < 10 ? '0' : ''}${Number(second.toFixed(3))}`;
  return `${pad(year, 4)}-${pad(month, 2)}-${pad(day, 2)}T${pad(hour, 2)}:${pad(minute, 2)}${tail}Z`;
}

function pad(value: number, width: number): string {
  return String(value).padStart(width, '0');
}

/** Gregorian year, month, day of a count of days since 1970 (Hinnant, chrono-compatible low-level date algorithms). */
function civil(days: number): [number, number, number] {
  const shifted = days + 719468;
  const era = Math.floor(shifted / 146097);
  const dayOfEra = shifted - era * 146097;
  const yearOfEra = Math.floor(
    (dayOfEra - Math.floor(dayOfEra / 1460) + Math.floor(dayOfEra / 36524) - Math.floor(dayOfEra / 146096)) /
      365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const monthFromMarch = Math.floor((5 * dayOfYear + 2) / 153);
  const day = dayOfYear - Math.floor((153 * monthFromMarch + 2) / 5) + 1;
  const month = monthFromMarch < 10 ? monthFromMarch + 3 : monthFromMarch - 9;
  return [yearOfEra + era * 400 + (month <= 2 ? 1 : 0), month, day];
}
