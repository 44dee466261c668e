/** Differences with their sign: "+120", "−0.4", "+1:20". */
import { differs } from '../core/plan/causes.ts';
import { minutesSeconds } from './time.ts';
import { figures, type Gauge, NOT_COMPUTED } from './units.ts';

/** A difference on the gauge, in finer steps where a whole one would round it away; "0" where there is none. */
export function signed(gauge: Gauge, si: number | null): string {
  if (si === null || !Number.isFinite(si)) return NOT_COMPUTED;
  if (!differs(gauge.quantity.key, 0, si)) return '0';
  const value = gauge.differenceFromSi(si);
  const step = [1, 10, 100].map((part) => gauge.step / part).find((one) => Math.abs(value) >= one / 2);
  if (step === undefined)
    return `${value < 0 ? '−' : '+'}<\u00a0${figures(gauge, gauge.step / 100, 'nearest', gauge.step / 100)}`;
  return plus(figures(gauge, value, 'nearest', step), value);
}

/** A difference of times as m:ss. */
export function signedTime(seconds: number): string {
  return Math.round(seconds) === 0 ? '0:00' : plus(minutesSeconds(seconds), seconds);
}

function plus(text: string, value: number): string {
  return value > 0 ? `+${text}` : text;
}
