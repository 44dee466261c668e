/** What cannot be of a deck's rules of descent and of its cabin. */
import type { Deck, FaultSink } from './deck.ts';

export function checkDescent({ cabin, descentRules, propulsion, place }: Deck, faults: FaultSink): void {
  const fault = (path: readonly (string | number)[], message: string): void =>
    faults.add(place(path), path.join('.'), message);
  const names = propulsion.settings.map(({ name }) => name);
  descentRules.forEach(({ aboveMach, abovePressureAltitudeM, setting }, index) => {
    if ((aboveMach === null) === (abovePressureAltitudeM === null))
      fault(['descentRules', index], 'a rule holds either "aboveMach" or "aboveAltitude"');
    if (!names.includes(setting))
      fault(['descentRules', index, 'setting'], `"${setting}" is none of ${names.join(', ')}`);
  });
  if (cabin === null) return;
  const { outsideM, insideM, greatestRateMS } = cabin;
  if (insideM.length !== outsideM.length)
    fault(['cabin', 'inside'], `${insideM.length} altitudes inside for ${outsideM.length} outside`);
  if (outsideM.some((height, i) => i > 0 && !(height > outsideM[i - 1])))
    fault(['cabin', 'outside'], 'write the altitudes rising');
  if (insideM.some((height, i) => i > 0 && !(height >= insideM[i - 1])))
    fault(['cabin', 'inside'], 'the cabin does not come down while the aircraft goes up');
  if (insideM.some((height, i) => height > outsideM[i]))
    fault(['cabin', 'inside'], 'the pressure inside is not below that outside');
  if (greatestRateMS !== null && !(greatestRateMS > 0)) fault(['cabin', 'rate'], 'must be above 0');
}
