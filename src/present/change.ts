/** Differences with their sign: "+120", "−0.4", "+1:20". */
import { minutesSeconds } from './time.ts';
import { figures, type Gauge, NOT_COMPUTED } from './units.ts';

/** A difference on the gauge, in a finer step where a whole one would round it away; "0" where that does too. */
export function signed(gauge: Gauge, si: number | null): string {
  if (si === null || !Number.isFinite(si)) return NOT_COMPUTED;
  const value = gauge.differenceFromSi(si);
  const step = Math.abs(value) < gauge.step / 2 ? gauge.step / 10 : gauge.step;
  return Math.abs(value) < step / 2 ? '0' : plus(figures(gauge, value, 'nearest', step), value);
}

/** A difference of times as m:ss. */
export function signedTime(seconds: number): string {
  return Math.round(seconds) === 0 ? '0:00' : plus(minutesSeconds(seconds), seconds);
}

function plus(text: string, value: number): string {
  return value > 0 ? `+${text}` : text;
}
