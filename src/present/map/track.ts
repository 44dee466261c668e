/** The track as it was flown: its pieces by what is done on them, and where it stands at a time. */
import { geoInterpolate } from 'd3-geo';
import type { Plan, TraceColumn } from '../../core/plan/plan.ts';
import type { Line } from './outlines.ts';
import type { LonLat } from './view.ts';

/** What pieces of a track are told apart by: going up and faster, going along, going down and slower, taking fuel. */
export type PieceKind = 'climb' | 'cruise' | 'descent' | 'contact';
export const PIECE_KINDS: readonly PieceKind[] = ['climb', 'cruise', 'descent', 'contact'];

const KIND_OF_PHASE: Readonly<Record<string, PieceKind>> = {
  'take-off': 'climb',
  climb: 'climb',
  acceleration: 'climb',
  pushover: 'climb',
  'level-off': 'climb',
  contact: 'contact',
  deceleration: 'descent',
  descent: 'descent',
  landing: 'descent',
};

export class FlownTrack {
  private readonly plan: Plan;
  private readonly columns: Plan['trace']['columns'];

  constructor(plan: Plan) {
    this.plan = plan;
    this.columns = plan.trace.columns;
  }

  get startS(): number {
    return this.columns.timeS[0];
  }

  get endS(): number {
    return this.columns.timeS[this.columns.timeS.length - 1];
  }

  nodes(): LonLat[] {
    return this.columns.timeS.map((_, node) => this.node(node));
  }

  /** Lines of each kind; neighbours share the node between them. */
  pieces(kind: PieceKind): Line[] {
    const { phase } = this.plan.trace;
    const lines: LonLat[][] = [];
    let open: LonLat[] | null = null;
    for (let node = 1; node < phase.length; node++) {
      if (this.kindAt(node) !== kind) {
        open = null;
        continue;
      }
      if (open === null) {
        open = [this.node(node - 1)];
        lines.push(open);
      }
      open.push(this.node(node));
    }
    return lines;
  }

  /** What is done on the way to a node. */
  kindAt(node: number): PieceKind {
    const phase = this.plan.phases[this.plan.trace.phase[node]];
    return KIND_OF_PHASE[phase?.kind ?? ''] ?? 'cruise';
  }

  /** Index of the node that ends the stretch in which a time lies. */
  nodeAfter(timeS: number): number {
    const times = this.columns.timeS;
    let low = 1;
    let high = times.length - 1;
    while (low < high) {
      const mid = (low + high) >> 1;
      if (times[mid] < timeS) low = mid + 1;
      else high = mid;
    }
    return low;
  }

  placeAt(timeS: number): LonLat {
    const { node, part } = this.between(timeS);
    return geoInterpolate(this.node(node - 1) as [number, number], this.node(node) as [number, number])(part);
  }

  /** A column at a time, linear between nodes. */
  at(column: TraceColumn, timeS: number): number {
    const { node, part } = this.between(timeS);
    const values = this.columns[column];
    return values[node - 1] + part * (values[node] - values[node - 1]);
  }

  /** True course at a time, the short way round between nodes, degrees. */
  courseAt(timeS: number): number {
    const { node, part } = this.between(timeS);
    const { courseDeg } = this.columns;
    const change = courseDeg[node] - courseDeg[node - 1];
    return courseDeg[node - 1] + part * (change - 360 * Math.round(change / 360));
  }

  private between(timeS: number): { node: number; part: number } {
    const { timeS: times } = this.columns;
    const node = this.nodeAfter(timeS);
    const span = times[node] - times[node - 1];
    return { node, part: span > 0 ? Math.min(1, Math.max(0, (timeS - times[node - 1]) / span)) : 0 };
  }

  private node(node: number): LonLat {
    return [this.columns.longitudeDeg[node], this.columns.latitudeDeg[node]];
  }
}
