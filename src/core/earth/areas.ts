/**
 * A flown track against keep-out areas: where it enters and leaves each one while the area holds, how deep it goes, or by how
 * much it clears, to the side and in height.
 *
 * Between nodes the track is a great circle with altitude and time linear along it. Distances are geodesics on WGS 84, at most
 * 2.3e-5 of themselves and 1 m too long: the nearest point of a side is looked for on the sphere of the verticals, whose
 * perpendicular is off by up to e^2 / 2, and a distance by half the square of e^2. With a half width the track is a corridor: an area counts as soon as it is so near.
 */
import { type Area, contains, hoursWithin, type PreparedArea } from './area.ts';
import { along, type FlownTrack, groundDistance, placeOfVertical, type Vertical } from './flown.ts';
import { inverse } from './line.ts';
import {
  chordSquare,
  merged,
  nearestPart,
  overlap,
  type Passage,
  partWithin,
  Segment,
  type Span,
} from './segment.ts';

export interface Incursion {
  readonly entry: Passage;
  readonly exit: Passage;
  readonly deepest: Passage;
  /** From the deepest point to the nearest side [m], with the half width; and the true course [rad] of the way out. */
  readonly depthM: number;
  readonly outCourseRad: number;
}

export interface AreaFinding {
  readonly area: Area;
  readonly incursions: readonly Incursion[];
  /** Least distance to the side [m], 0 inside, while the area holds at that hour and height; null where it never does. */
  readonly nearest: { readonly at: Passage; readonly distanceM: number } | null;
  /** Least height [m] above the ceiling or below the floor while over or under it in its hours; null where it never is. */
  readonly vertical: {
    readonly at: Passage;
    readonly clearanceM: number;
    readonly side: 'over' | 'under';
  } | null;
}

/** A stretch of a track, no longer than a segment. */
interface Stretch {
  readonly segment: Segment;
  readonly span: Span;
  /** A lower bound of the distance from the segment to the sides [m]. */
  readonly leastM: number;
}

/** Least radius of curvature of WGS 84 [m], and how much the greatest is more: bounds of a distance from an angle. */
const leastRadiusM = 6_335_000;
const anisotropy = 1.01;
/** Square of the angle [rad2], 6 mm, within which a track goes through a corner. */
const cornerSquare = 1e-18;

export function testAreas(track: FlownTrack, areas: readonly PreparedArea[], halfWidthM = 0): AreaFinding[] {
  const segments = segmentsOf(track);
  return areas.map((area) => new AreaTest(track, segments, area, halfWidthM).finding());
}

/** The ways through each area alone; how near the others come is not looked for. */
export function testIncursions(
  track: FlownTrack,
  areas: readonly PreparedArea[],
  halfWidthM = 0,
): AreaFinding[] {
  const segments = segmentsOf(track);
  return areas.map((prepared) => {
    const test = new AreaTest(track, segments, prepared, halfWidthM);
    return { area: prepared.area, incursions: test.incursions(), nearest: null, vertical: null };
  });
}

function segmentsOf(track: FlownTrack): Segment[] {
  const count = Math.max(track.timeS.length - 1, 0);
  return Array.from({ length: count }, (_, node) => new Segment(track, node));
}

/** One track, by its segments, against one area. */
class AreaTest {
  private readonly track: FlownTrack;
  private readonly segments: readonly Segment[];
  private readonly prepared: PreparedArea;
  private readonly halfWidthM: number;
  private nearest: AreaFinding['nearest'] = null;
  private vertical: AreaFinding['vertical'] = null;

  constructor(track: FlownTrack, segments: readonly Segment[], prepared: PreparedArea, halfWidthM: number) {
    this.track = track;
    this.segments = segments;
    this.prepared = prepared;
    this.halfWidthM = halfWidthM;
  }

  finding(): AreaFinding {
    const { area } = this.prepared;
    const { timeS, pressureAltitudeM } = this.track;
    const low = area.floorM ?? Number.NEGATIVE_INFINITY;
    const high = area.ceilingM ?? Number.POSITIVE_INFINITY;
    const inside: Stretch[] = [];
    const holding: Stretch[] = [];
    for (const segment of this.segments) {
      const { node } = segment;
      const leastM = this.leastPossibleM(segment);
      const open = hoursWithin(area.hours, timeS[node], timeS[node + 1]);
      const [before, after] = [pressureAltitudeM[node], pressureAltitudeM[node + 1]];
      const level = partWithin(before, after, low, high);
      for (const span of open) {
        if (level) for (const held of overlap(span, level)) holding.push({ segment, span: held, leastM });
        if (leastM > this.halfWidthM) continue;
        for (const across of this.insideOn(segment, span)) {
          this.noteVertical(segment, across);
          if (level) for (const held of overlap(across, level)) inside.push({ segment, span: held, leastM });
        }
      }
    }
    const incursions = this.waysThrough(inside);
    if (incursions.length > 0) this.nearest = { at: incursions[0].entry, distanceM: 0 };
    else this.findNearest(holding);
    return { area, incursions, nearest: this.nearest, vertical: this.vertical };
  }

  incursions(): Incursion[] {
    const { area } = this.prepared;
    const { timeS, pressureAltitudeM } = this.track;
    const low = area.floorM ?? Number.NEGATIVE_INFINITY;
    const high = area.ceilingM ?? Number.POSITIVE_INFINITY;
    const inside: Stretch[] = [];
    for (const segment of this.segments) {
      const leastM = this.leastPossibleM(segment);
      if (leastM > this.halfWidthM) continue;
      const { node } = segment;
      const level = partWithin(pressureAltitudeM[node], pressureAltitudeM[node + 1], low, high);
      if (!level) continue;
      for (const span of hoursWithin(area.hours, timeS[node], timeS[node + 1])) {
        for (const across of this.insideOn(segment, span)) {
          for (const held of overlap(across, level)) inside.push({ segment, span: held, leastM });
        }
      }
    }
    return this.waysThrough(inside);
  }

  private waysThrough(inside: readonly Stretch[]): Incursion[] {
    return joined(inside).map((stretches) => this.incursion(stretches));
  }

  /** The spans of a span that lie in the area, whatever the altitude. */
  private insideOn(segment: Segment, [from, to]: Span): Span[] {
    const reachM = this.halfWidthM;
    const near = this.piecesNear(segment, reachM);
    if (near.length === 0) return this.inArea(segment.at(from)) ? [[from, to]] : [];
    const cuts = near.map(({ from: a, to: b }) => segment.crossing(a, b)).filter((part) => part !== null);
    // A corridor is nearest to a side at a corner or a crossing; a line through a corner may miss both its sides.
    for (const { from: corner } of near) {
      const part = segment.nearestPart(corner);
      if (reachM > 0 || chordSquare(segment.at(part), corner) < cornerSquare) cuts.push(part);
    }
    const parts = [from, ...cuts.filter((part) => part > from && part < to).sort((a, b) => a - b), to];
    const spans = parts
      .slice(1)
      .map((part, i): Span => [parts[i], part])
      .filter(([a, b]) => b - a > 1e-12);
    if (reachM === 0) return merged(spans.filter(([a, b]) => this.holds(segment.at(0.5 * (a + b)))));
    return merged(spans.flatMap((span) => this.corridor(segment, span)));
  }

  /** The part of a span, monotonous in distance or nearly so, that is within the half width. */
  private corridor(segment: Segment, [from, to]: Span): Span[] {
    const within = (part: number): boolean => this.holds(segment.at(part));
    const [first, last] = [within(from), within(to)];
    if (first && last) return [[from, to]];
    if (!first && !last) return [];
    let [out, into] = first ? [to, from] : [from, to];
    for (let halving = 0; halving < 40; halving++) {
      const middle = 0.5 * (out + into);
      if (within(middle)) into = middle;
      else out = middle;
    }
    return [first ? [from, into] : [into, to]];
  }

  /** Whether a point is in the area or within the half width of it. */
  private holds(point: Vertical): boolean {
    if (this.inArea(point)) return true;
    return this.halfWidthM > 0 && this.toSide(point).distanceM <= this.halfWidthM;
  }

  /** A lower bound of the distance from a segment to the sides [m]. */
  private leastPossibleM(segment: Segment): number {
    const { centre, reachRad } = this.prepared;
    const between = 2 * Math.asin(Math.min(1, 0.5 * Math.sqrt(chordSquare(segment.from, centre))));
    return (between - reachRad - segment.angleRad) * leastRadiusM;
  }

  /** The pieces that may lie within a distance of a segment. */
  private piecesNear(segment: Segment, distanceM: number): PreparedArea['pieces'] {
    const angle = distanceM / leastRadiusM + 0.5 * segment.angleRad + this.prepared.longestRad;
    if (angle >= Math.PI) return this.prepared.pieces;
    const middle = segment.at(0.5);
    // The chord, not the cosine: small angles keep their digits.
    const most = 4 * Math.sin(0.5 * angle) ** 2;
    return this.prepared.pieces.filter(({ from }) => chordSquare(from, middle) <= most);
  }

  /** The nearest point of the sides, its distance [m], and the course to it. */
  private toSide(point: Vertical): { readonly distanceM: number; readonly courseRad: number } {
    const { pieces, longestRad } = this.prepared;
    const least = pieces.reduce((square, { from }) => Math.min(square, chordSquare(from, point)), 4);
    const angle = 2 * Math.asin(Math.min(1, 0.5 * Math.sqrt(least)));
    const most = 4 * Math.sin(Math.min(0.5 * Math.PI, 0.5 * (angle * anisotropy + longestRad))) ** 2;
    let nearest: Vertical = point;
    let leastM = Number.POSITIVE_INFINITY;
    for (const { from, to } of pieces) {
      if (chordSquare(from, point) > most) continue;
      const foot = along(from, to, nearestPart(point, from, to));
      const distanceM = groundDistance(foot, point);
      if (distanceM >= leastM) continue;
      leastM = distanceM;
      nearest = foot;
    }
    const { distanceM, initialCourseRad } = inverse(placeOfVertical(point), placeOfVertical(nearest));
    return { distanceM, courseRad: initialCourseRad };
  }

  /** Looks first where the area is near, so that most of the track need not be looked at. */
  private findNearest(stretches: Stretch[]): void {
    stretches.sort((a, b) => a.leastM - b.leastM);
    for (const { segment, span, leastM } of stretches) {
      if (leastM > (this.nearest?.distanceM ?? Number.POSITIVE_INFINITY)) return;
      this.noteNearest(segment, span);
    }
  }

  private noteNearest(segment: Segment, [from, to]: Span): void {
    const best = this.nearest?.distanceM ?? Number.POSITIVE_INFINITY;
    const near = this.piecesNear(segment, Math.min(best, Math.PI * leastRadiusM));
    if (near.length === 0) return;
    // Two lines that do not cross are nearest at an end of one of them.
    let likely = from;
    let leastM = Number.POSITIVE_INFINITY;
    for (const { from: corner } of near) {
      const part = Math.min(Math.max(segment.nearestPart(corner), from), to);
      const distanceM = groundDistance(corner, segment.at(part));
      if (distanceM >= leastM) continue;
      leastM = distanceM;
      likely = part;
    }
    for (const part of new Set([from, to, likely])) {
      const { distanceM } = this.toSide(segment.at(part));
      if (distanceM < (this.nearest?.distanceM ?? Number.POSITIVE_INFINITY)) {
        this.nearest = { at: segment.passage(part), distanceM };
      }
    }
  }

  private noteVertical(segment: Segment, span: Span): void {
    const { floorM, ceilingM } = this.prepared.area;
    for (const part of span) {
      const at = segment.passage(part);
      const over = ceilingM === null ? Number.NEGATIVE_INFINITY : at.pressureAltitudeM - ceilingM;
      const under = floorM === null ? Number.NEGATIVE_INFINITY : floorM - at.pressureAltitudeM;
      const clearanceM = Math.max(over, under);
      if (clearanceM <= 0 || clearanceM >= (this.vertical?.clearanceM ?? Number.POSITIVE_INFINITY)) continue;
      this.vertical = { at, clearanceM, side: over > under ? 'over' : 'under' };
    }
  }

  /** One way through: its ends, and its deepest point searched at every 5 km and then between. */
  private incursion(stretches: readonly Stretch[]): Incursion {
    const first = stretches[0];
    const last = stretches[stretches.length - 1];
    let deepest = { segment: first.segment, part: first.span[0], depth: -1, step: 0, span: first.span };
    for (const { segment, span } of stretches) {
      const lengthM = (span[1] - span[0]) * segment.angleRad * leastRadiusM;
      const count = Math.max(2, Math.ceil(lengthM / 5000));
      const step = (span[1] - span[0]) / count;
      for (let i = 0; i <= count; i++) {
        const part = span[0] + i * step;
        const depth = this.depth(segment, part);
        if (depth > deepest.depth) deepest = { segment, part, depth, step, span };
      }
    }
    const { segment, span, step } = deepest;
    const [low, high] = [Math.max(span[0], deepest.part - step), Math.min(span[1], deepest.part + step)];
    const part = this.deepestBetween(segment, low, high);
    const out = this.toSide(segment.at(part));
    return {
      entry: first.segment.passage(first.span[0]),
      exit: last.segment.passage(last.span[1]),
      deepest: segment.passage(part),
      depthM: this.depth(segment, part),
      outCourseRad: this.inArea(segment.at(part)) ? out.courseRad : out.courseRad + Math.PI,
    };
  }

  /** Golden section; the depth has one peak between the neighbours of the deepest point found. */
  private deepestBetween(segment: Segment, from: number, to: number): number {
    const golden = (Math.sqrt(5) - 1) / 2;
    let [low, high] = [from, to];
    for (let narrowing = 0; narrowing < 20; narrowing++) {
      const [a, b] = [high - golden * (high - low), low + golden * (high - low)];
      if (this.depth(segment, a) >= this.depth(segment, b)) high = b;
      else low = a;
    }
    return 0.5 * (low + high);
  }

  private inArea(point: Vertical): boolean {
    return contains(this.prepared.area, placeOfVertical(point));
  }

  /** How far from the edge of the corridor [m]: the half width more than from the side, less where it is outside. */
  private depth(segment: Segment, part: number): number {
    const point = segment.at(part);
    const { distanceM } = this.toSide(point);
    return this.halfWidthM + (this.inArea(point) ? distanceM : -distanceM);
  }
}

/** Stretches in order, put together where one begins as the last ended. */
function joined(stretches: readonly Stretch[]): Stretch[][] {
  const ways: Stretch[][] = [];
  let endedAt = Number.NEGATIVE_INFINITY;
  for (const stretch of stretches) {
    const { segment, span } = stretch;
    if (segment.node + span[0] - endedAt < 1e-9) ways[ways.length - 1].push(stretch);
    else ways.push([stretch]);
    endedAt = segment.node + span[1];
  }
  return ways;
}
