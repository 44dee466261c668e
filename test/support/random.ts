/** Numbers of chance that are the same in every run: mulberry32 (public domain), and the normal of Box and Muller (1958). */
export interface Chance {
  /** Even in 0 to 1. */
  even(): number;
  /** Mean 0, variance 1. */
  normal(): number;
}

export function chance(seed: number): Chance {
  let state = Math.imul(seed + 1, 0x9e3779b1) >>> 0;
  const even = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  return {
    even,
    normal: () => Math.sqrt(-2 * Math.log(1 - even())) * Math.cos(2 * Math.PI * even()),
  };
}
