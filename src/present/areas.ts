/** Keep-out areas in sentences: how deep the route goes into one, or by how much it clears it. */
import type { AreaIncursion, Plan, PlanArea } from '../core/plan/plan.ts';
import { hoursMinutes } from './time.ts';
import { gaugesOf, margin, shown } from './units.ts';

/** "12 nm into Gannet Range and the 5 nm kept beside it, 0:41 to 0:43". */
export function throughWords(plan: Plan, name: string, { depthM, entry, exit }: AreaIncursion): string {
  const depth = margin(gaugesOf(plan)('distanceM'), -depthM).text.replace('−', '');
  const half = plan.areas.find((area) => area.name === name)?.corridorHalfWidthM ?? 0;
  const beside = half > 0 ? ` and the ${shown(gaugesOf(plan)('distanceM'), half)} kept beside it` : '';
  return `${depth} into ${name}${beside}, ${hoursMinutes(entry.timeS)} to ${hoursMinutes(exit.timeS)}`;
}

/** A sentence for each area: "Gannet Range cleared by 14 nm beyond the 5 nm kept beside it at 2:41." */
export function areaSentences(plan: Plan): readonly string[] {
  return plan.areas.map((area) => `${areaWords(plan, area)}${holdsWords(plan, area)}.`);
}

function areaWords(plan: Plan, area: PlanArea): string {
  const { name, incursions, nearest, vertical, corridorHalfWidthM } = area;
  const gauges = gaugesOf(plan);
  if (incursions.length > 0) {
    return `The route goes ${incursions.map((way) => throughWords(plan, name, way)).join(', and again ')}`;
  }
  if (vertical) {
    const height = shown(gauges('pressureAltitudeM'), vertical.clearanceM, 'available');
    return `${name} cleared: ${height} ${vertical.side === 'over' ? 'above' : 'below'} it at ${hoursMinutes(vertical.timeS)}`;
  }
  if (!nearest) return `${name} cleared: it never holds at the hour and height flown`;
  const half = corridorHalfWidthM;
  const clear = margin(gauges('distanceM'), nearest.distanceM - half).text;
  const beside = half > 0 ? ` beyond the ${shown(gauges('distanceM'), half)} kept beside it` : '';
  return `${name} cleared by ${clear}${beside} at ${hoursMinutes(nearest.timeS)}`;
}

/** "; it holds from 22:00Z to 06:00Z, up to 45 000 ft": when and at which heights, where it is not always and all. */
function holdsWords(
  plan: Plan,
  { hours, floorPressureAltitudeM, ceilingPressureAltitudeM }: PlanArea,
): string {
  const altitude = gaugesOf(plan)('pressureAltitudeM');
  const parts: string[] = [];
  if (hours) parts.push(`from ${hours.from} to ${hours.to}${hours.kind === 'daily' ? ' each day' : ''}`);
  if (floorPressureAltitudeM !== null) parts.push(`from ${shown(altitude, floorPressureAltitudeM)}`);
  if (ceilingPressureAltitudeM !== null) parts.push(`up to ${shown(altitude, ceilingPressureAltitudeM)}`);
  return parts.length === 0 ? '' : `; it holds ${parts.join(', ')}`;
}
