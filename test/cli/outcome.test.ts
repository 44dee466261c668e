import { CommanderError } from 'commander';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { EXIT, Refusal, reportFailure, WrongUsage } from '../../src/cli/outcome.ts';
import { OutsideRange } from '../../src/core/quantities/errors.ts';

let stdout = '';
let stderr = '';

beforeEach(() => {
  stdout = '';
  stderr = '';
  vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
    stdout += text;
    return true;
  });
  vi.spyOn(process.stderr, 'write').mockImplementation((text) => {
    stderr += text;
    return true;
  });
});

afterEach(() => {
  vi.restoreAllMocks();
});

describe('how a command ends', () => {
  it('[CLI-52] an error with data is a refusal: the sentence, and with --json the data', () => {
    const error = new OutsideRange('Mach', 11, '1', 0, 10, 'air data');
    expect(reportFailure(error, true)).toBe(EXIT.refused);
    expect(stderr).toBe('Mach 11 is outside 0 to 10 of air data\n');
    const data = { quantity: 'Mach', value: 11, unit: '1', minimum: 0, maximum: 10, where: 'air data' };
    expect(JSON.parse(stdout)).toEqual({
      error: { kind: 'refused', message: 'Mach 11 is outside 0 to 10 of air data', faults: [data] },
    });
  });

  it('[CLI-53] a refusal with several faults keeps them all', () => {
    expect(reportFailure(new Refusal('two faults', [{ quantity: 'a' }, { quantity: 'b' }]), true)).toBe(1);
    expect(JSON.parse(stdout).error.faults).toEqual([{ quantity: 'a' }, { quantity: 'b' }]);
  });

  it('[CLI-54] a file that cannot be read is a refusal, options that exclude each other are usage', () => {
    const missing = Object.assign(new Error('ENOENT: x'), {
      syscall: 'open',
      code: 'ENOENT',
      path: 'a/b.yaml',
    });
    expect(reportFailure(missing, false)).toBe(EXIT.refused);
    expect(stderr).toBe('a/b.yaml: no such file or folder\n');
    expect(reportFailure(new WrongUsage('not both'), false)).toBe(EXIT.usage);
    expect(reportFailure(new CommanderError(1, 'commander.unknownOption', 'error: x'), false)).toBe(
      EXIT.usage,
    );
    expect(reportFailure(new CommanderError(0, 'commander.helpDisplayed', '(help)'), false)).toBe(EXIT.done);
    expect(stdout).toBe('');
  });

  it('[CLI-55] anything else is a defect, told with where it happened', () => {
    expect(reportFailure(new TypeError('x is undefined'), false)).toBe(EXIT.defect);
    expect(stderr).toMatch(/^A defect of the program: TypeError: x is undefined\n\s+at /);
  });
});
