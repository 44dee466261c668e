import { describe, expect, it } from 'vitest';
import { Faults, faultText } from '../../src/files/faults.ts';
import { readTable } from '../../src/files/table-csv.ts';

const known = {
  mach: { quantity: 'mach' },
  pressureAltitude: { quantity: 'pressureAltitudeM' },
  temperature: { quantity: 'temperatureK' },
  equivalentAirspeed: { quantity: 'equivalentAirspeedMS' },
  setting: 'words',
} as const;

function read(text: string) {
  const faults = new Faults();
  return { table: readTable(text, 't.csv', known, faults), faults: faults.list.map(faultText) };
}

describe('tables as CSV', () => {
  it('[CSV-1] come out in SI, with the line of each row, comments and empty lines passed over', () => {
    const { table, faults } = read(
      '# a comment\nmach [1],pressureAltitude [ft],temperature [degC]\n\n0.5,1000,-56.5\n# another\n0.6,2000,15\n',
    );
    expect(faults).toEqual([]);
    expect(table?.rows).toBe(2);
    expect([...(table?.lines ?? [])]).toEqual([4, 6]);
    expect([...(table?.numbers.get('pressureAltitude') ?? [])]).toEqual([304.8, 609.6]);
    expect(table?.numbers.get('temperature')?.[0]).toBeCloseTo(216.65, 10);
  });

  it('[CSV-2] may have a byte-order mark, carriage returns, blanks and quotation marks', () => {
    const { table, faults } = read('\uFEFF"mach [1]",setting\r\n 0.5 ,"idle, low"\r\n"0.6",part\r\n');
    expect(faults).toEqual([]);
    expect([...(table?.numbers.get('mach') ?? [])]).toEqual([0.5, 0.6]);
    expect(table?.words.get('setting')).toEqual(['idle, low', 'part']);
  });

  it('[CSV-3] refuse a unit of another kind, a unit on words, and a column twice', () => {
    const { table, faults } = read('equivalentAirspeed [KCAS],setting [1],mach [1],mach [1]\n1,a,1,1\n');
    expect(table).toBeNull();
    expect(faults[0]).toMatch(/^t.csv:1: equivalentAirspeed: unit of column equivalentAirspeed "KCAS"/);
    expect(faults.slice(1)).toEqual([
      't.csv:1: setting: column "setting" holds words and has no unit',
      't.csv:1: mach: column "mach" is there twice',
    ]);
  });

  it('[CSV-4] refuse a row whose quotation never ends, and go on to the next', () => {
    const { table, faults } = read('mach [1]\n"0.5\n0.6,1\n');
    expect(table).toBeNull();
    expect(faults).toHaveLength(2);
    expect(faults[0]).toMatch(/^t.csv:2: /);
    expect(faults[1]).toBe('t.csv:3: the row has 2 cells, the header 1');
  });

  it('[CSV-5] refuse a table without rows', () => {
    expect(read('# nothing\nmach [1]\n').faults).toEqual(['t.csv: the table has no rows']);
    expect(read('').faults).toEqual(['t.csv: the table has no rows']);
  });
});
