/**
 * The two-sided cumulative sum of a series that has mean 0 and variance 1 while nothing has changed: it finds small lasting shifts.
 * S+ = max(0, S+ + x - k), S- likewise with -x; out where one exceeds h. Page, Biometrika 41 (1954) 100; average run lengths
 * in Lucas and Crosier, Technometrics 24 (1982) 199.
 */
export class Cusum {
  /** Half the shift that is to be found, in standard deviations. */
  readonly k: number;
  readonly h: number;
  private above = 0;
  private below = 0;

  constructor(k: number, h: number) {
    this.k = k;
    this.h = h;
  }

  /** Takes the next value; true where either sum exceeds h, and both then begin again. */
  add(x: number): boolean {
    this.above = Math.max(0, this.above + x - this.k);
    this.below = Math.max(0, this.below - x - this.k);
    const out = this.above > this.h || this.below > this.h;
    if (out) this.restart();
    return out;
  }

  restart(): void {
    this.above = 0;
    this.below = 0;
  }

  copy(): Cusum {
    const other = new Cusum(this.k, this.h);
    other.above = this.above;
    other.below = this.below;
    return other;
  }
}
