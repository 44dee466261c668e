/** Lines of readings: CSV, JSON, typed; what is refused says why. */
import { expect, it } from 'vitest';
import { logLine, ReadingLines } from '../../src/files/readings.ts';

const takeOffS = Date.UTC(2026, 1, 23, 15, 30) / 1000;
const lines = () => new ReadingLines(takeOffS);

it('[AIRBORNE-7] the same reading as CSV, JSON and typed', () => {
  const csv = lines();
  expect(csv.read('time, fuel [lb], mach [Mach]')).toEqual([]);
  const [entry] = csv.read('2026-02-23T16:20Z, 50000,');
  // 50 000 lb of 0.45359237 kg.
  expect(entry).toEqual({ timeS: 3000, key: 'fuelKg', value: 22679.6185, status: 'read' });
  expect(lines().read('0:50 fuel 50000 lb')).toEqual([entry]);
  expect(lines().read('{"timeS":3000,"fuelKg":22679.6185}')).toEqual([entry]);
  expect(lines().read(logLine(entry))).toEqual([entry]);
});

it('[AIRBORNE-7] status and several values by hand', () => {
  expect(lines().read('1:34:30 fuel 21180 kg, mach 2.85 corrected')).toEqual([
    { timeS: 5670, key: 'fuelKg', value: 21_180, status: 'corrected' },
    { timeS: 5670, key: 'mach', value: 2.85, status: 'corrected' },
  ]);
  expect(lines().read('1:50 disconnect')[0].key).toBe('disconnect');
});

it.each([
  ['0:50 fuel 21180', 'fuel "21180": has no unit'],
  ['0:50 groundSpeed 900 KEAS', 'equivalent airspeed'],
  ['0:50 petrol 3 kg', 'reading "petrol": is not known'],
  ['0:75 fuel 3 t', 'time "0:75": is not a time'],
  ['{"timeS":1,"fuel":2}', 'key "fuel": is none of a reading'],
  ['{"timeS":1', 'is no JSON'],
])('[AIRBORNE-7] %s is refused', (line, message) => {
  expect(() => lines().read(line)).toThrow(message);
});

it.each([
  ['time, fuel [kg]', '0:50, -20', 'fuelKg "-20": must be 0 to 100000000'],
  ['time, fuel [t]', '0:50, 1e30', ': must be 0 to 100000000'],
  ['time, groundSpeed [kt GS]', '0:50, Infinity', 'groundSpeedMS "Infinity": must be 0 to '],
])('[AIRBORNE-7] below "%s" the row "%s" is refused', (header, row, message) => {
  const table = lines();
  table.read(header);
  expect(() => table.read(row)).toThrow(message);
});
