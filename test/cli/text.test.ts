import { describe, expect, it } from 'vitest';
import { columns, sheet } from '../../src/cli/text.ts';

describe('text on the terminal', () => {
  it('[CLI-50] lays cells out in columns without trailing blanks', () => {
    const rows = [
      ['a', '1', 'kg'],
      ['long', '1000', ''],
    ];
    expect(columns(rows, (column) => column === 1)).toEqual(['a        1  kg', 'long  1000']);
  });

  it('[CLI-51] shows a quantity in the unit of the trade and in SI, Mach without a unit', () => {
    // 1 ft = 0.3048 m, 0 degC = 273.15 K: exact by definition
    expect(
      sheet([
        ['pressureAltitudeM', 30480],
        ['temperatureK', 273.15],
        ['mach', 2.9],
      ]),
    ).toEqual([
      'Pressure altitude   100000  ft     30480  m',
      'Static temperature     0.0  degC  273.15  K',
      'Mach                 2.900',
    ]);
  });
});
