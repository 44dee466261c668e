/** Courses as they are read: three figures, magnetic first where the plan has it. */
import type { Compass } from '../core/earth/magnetic.ts';
import type { CourseAt, Plan } from '../core/plan/plan.ts';
import { magneticLine } from './foot.ts';

/** "056"; north is 360. */
export function threeFigures(deg: number): string {
  const whole = ((Math.round(deg) % 360) + 360) % 360;
  return String(whole === 0 ? 360 : whole).padStart(3, '0');
}

/** "062° magnetic (060° true)", with what a compass is worth where it is poor; "060° true" where magnetic north is not known. */
export function courseWords({ courseDeg, magneticDeg, compass }: CourseAt): string {
  const byTrue = `${threeFigures(courseDeg)}° true`;
  if (magneticDeg === null) return byTrue;
  const worth = compass === null || compass === 'good' ? '' : `, ${COMPASS[compass]}`;
  return `${threeFigures(magneticDeg)}° magnetic (${byTrue})${worth}`;
}

const COMPASS: Readonly<Record<Exclude<Compass, 'good'>, string>> = {
  caution: 'compass poor so near the magnetic pole',
  blackout: 'compass useless so near the magnetic pole',
};

/** What stands below courses by magnetic north: whose it is, and what of them a compass cannot show. */
export function magneticNotes(
  plan: Plan,
  courses: readonly { readonly name: string; readonly compass: Compass | null }[],
): readonly string[] {
  const line = magneticLine(plan);
  if (line === '') return [];
  const poor = courses.flatMap(({ name, compass }) =>
    compass === null || compass === 'good' ? [] : [`${name}: ${COMPASS[compass]}.`],
  );
  return [line, ...poor];
}

/** The course of the first line, to be turned to after take-off, and whose magnetic north it counts from. */
export function firstCourse(plan: Plan): readonly string[] {
  if (plan.magnetic === null) return [];
  return [`First course ${courseWords(plan.magnetic.takeOff)}. ${magneticLine(plan)}`];
}

/** "34.60N 91.60W". */
export function placeWords(at: { readonly latitudeDeg: number; readonly longitudeDeg: number }): string {
  const latitude = `${Math.abs(at.latitudeDeg).toFixed(2)}${at.latitudeDeg < 0 ? 'S' : 'N'}`;
  return `${latitude} ${Math.abs(at.longitudeDeg).toFixed(2)}${at.longitudeDeg < 0 ? 'W' : 'E'}`;
}
