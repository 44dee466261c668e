/**
 * The keep-out areas of a sortie against the track as flown: turns as arcs with roll-in and drift, in the hours and at the
 * heights in which each area holds.
 */
import type { Area } from '../earth/area.ts';
import { type AreaFinding, testAreas, testIncursions } from '../earth/areas.ts';
import { roundedTrack } from '../earth/rounded.ts';
import type { Passage } from '../earth/segment.ts';
import { showTime } from '../quantities/time.ts';
import type { Draft } from './draft.ts';
import type { Log } from './log.ts';
import type { AreaPassage, PlanArea } from './plan.ts';

const degrees = 180 / Math.PI;

/** What each area of the sortie finds on the flown track; nothing where the sortie has no areas. */
export function findAreas({ log, crew }: Draft): AreaFinding[] {
  const { areas, corridorHalfWidthM } = crew.sortie;
  if (areas.length === 0 || log.nodes < 2) return [];
  return testAreas(roundedTrack(log.columns), areas, corridorHalfWidthM);
}

/** The ways through each area of the sortie alone: what a flown track is judged by. */
export function findIncursions({ log, crew }: Draft): AreaFinding[] {
  const { areas, corridorHalfWidthM } = crew.sortie;
  if (areas.length === 0 || log.nodes < 2) return [];
  return testIncursions(roundedTrack(log.columns), areas, corridorHalfWidthM);
}

/** The findings as a plan holds them. */
export function areasOf({ log, crew }: Draft, findings: readonly AreaFinding[]): PlanArea[] {
  const { takeOff, corridorHalfWidthM } = crew.sortie;
  const passage = ({ timeS, latitudeRad, longitudeRad, pressureAltitudeM }: Passage): AreaPassage => ({
    timeS: timeS - takeOff.timeS,
    latitudeDeg: latitudeRad * degrees,
    longitudeDeg: longitudeRad * degrees,
    pressureAltitudeM,
    phase: phaseAt(log, timeS),
  });
  return findings.map(({ area, incursions, nearest, vertical }) => ({
    name: area.name,
    hours: hoursOf(area),
    floorPressureAltitudeM: area.floorM,
    ceilingPressureAltitudeM: area.ceilingM,
    corridorHalfWidthM,
    polygonsDeg: area.polygons.map((rings) =>
      rings.map((ring) =>
        ring.map((corner) => [corner.longitudeRad * degrees, corner.latitudeRad * degrees]),
      ),
    ),
    incursions: incursions.map(({ entry, exit, deepest, depthM, outCourseRad }) => ({
      entry: passage(entry),
      exit: passage(exit),
      deepest: passage(deepest),
      depthM,
      outCourseDeg: (outCourseRad * degrees + 720) % 360,
    })),
    nearest: nearest && { ...passage(nearest.at), distanceM: nearest.distanceM },
    vertical: vertical && { ...passage(vertical.at), clearanceM: vertical.clearanceM, side: vertical.side },
  }));
}

/** Name of the phase flown at a moment. */
function phaseAt(log: Log, timeS: number): string {
  const node = log.columns.timeS.findIndex((time) => time >= timeS - 1e-6);
  return log.phases[log.phaseOf[node < 0 ? log.nodes - 1 : node]]?.name ?? '';
}

function hoursOf({ hours }: Area): PlanArea['hours'] {
  if (hours === null) return null;
  const show = (timeS: number): string => (hours.kind === 'once' ? showTime(timeS) : clock(timeS));
  return { kind: hours.kind, from: show(hours.fromS), to: show(hours.toS) };
}

/** "22:00Z" of seconds after 00:00 UTC. */
function clock(timeS: number): string {
  const minutes = Math.round(timeS / 60);
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}Z`;
}
