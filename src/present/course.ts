/** Courses as they are read: three figures, magnetic first where the plan has it. */

/** "056"; north is 360. */
export function threeFigures(deg: number): string {
  const whole = ((Math.round(deg) % 360) + 360) % 360;
  return String(whole === 0 ? 360 : whole).padStart(3, '0');
}

/** "062° magnetic (060° true)", or "060° true" where magnetic north is not known or no compass works. */
export function courseWords(at: { readonly courseDeg: number; readonly magneticDeg: number | null }): string {
  const byTrue = `${threeFigures(at.courseDeg)}° true`;
  return at.magneticDeg === null ? byTrue : `${threeFigures(at.magneticDeg)}° magnetic (${byTrue})`;
}

/** "34.60N 91.60W". */
export function placeWords(at: { readonly latitudeDeg: number; readonly longitudeDeg: number }): string {
  const latitude = `${Math.abs(at.latitudeDeg).toFixed(2)}${at.latitudeDeg < 0 ? 'S' : 'N'}`;
  return `${latitude} ${Math.abs(at.longitudeDeg).toFixed(2)}${at.longitudeDeg < 0 ? 'W' : 'E'}`;
}
