/**
 * How a command ends: its exit code and, on failure, one sentence on stderr for each fault. With `--json` stdout holds one
 * JSON object in every case: the result, or `{ "error": { kind, message, faults } }`.
 */
import { CommanderError } from 'commander';
import { ofSystem } from '../files/faults.ts';

export const EXIT = {
  done: 0,
  /** The input has faults or asks for what is outside a range: nothing was written. */
  refused: 1,
  /** The command line itself is wrong. */
  usage: 2,
  /** `plan`: the sortie cannot be flown, `manoeuvre`: it is not allowed; the answer was written all the same. */
  cannotBeFlown: 3,
  /** A defect of the program. */
  defect: 70,
} as const;

/** One thing wrong, as data; which keys there are depends on the fault. */
export type Detail = Readonly<Record<string, unknown>>;

/** Ends a command with `EXIT.refused`: a sentence, and each fault as data. */
export class Refusal extends Error {
  readonly faults: readonly Detail[];

  constructor(message: string, faults: readonly Detail[] = []) {
    super(message);
    this.name = 'Refusal';
    this.faults = faults;
  }
}

/** Ends a command with `EXIT.usage`: options that do not go together. */
export class WrongUsage extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'WrongUsage';
  }
}

/** Reports what ended a command early; returns the exit code. */
export function reportFailure(error: unknown, json: boolean): number {
  if (error instanceof CommanderError) return reportCommander(error, json);
  const fault = error instanceof Error ? error : new Error(String(error));
  const kind = kindOf(fault);
  const message = sentenceOf(fault);
  process.stderr.write(`${kind === 'defect' ? `A defect of the program: ${fault.stack}` : message}\n`);
  if (json) writeError(kind, message, detailsOf(fault));
  return EXIT[kind];
}

/** Commander has printed its sentence on stderr already, and help or version on stdout. */
function reportCommander(error: CommanderError, json: boolean): number {
  if (error.exitCode === 0) return EXIT.done;
  if (json) writeError('usage', error.message.replace(/^error: /, ''), []);
  return EXIT.usage;
}

function writeError(kind: string, message: string, faults: readonly Detail[]): void {
  process.stdout.write(`${JSON.stringify({ error: { kind, message, faults } }, null, 2)}\n`);
}

/** Errors that carry their own data, and what the operating system says about a file, are answers to the user. */
function kindOf(error: Error): 'refused' | 'usage' | 'defect' {
  if (error instanceof WrongUsage) return 'usage';
  const hasData = 'quantity' in error || 'faults' in error || 'file' in error;
  return hasData || ofSystem(error) !== null ? 'refused' : 'defect';
}

function sentenceOf(error: Error): string {
  const ofFile = ofSystem(error);
  if (ofFile === null) return error.message;
  return 'path' in error ? `${error.path}: ${ofFile}` : ofFile;
}

function detailsOf(error: Error): readonly Detail[] {
  if ('faults' in error && Array.isArray(error.faults)) return error.faults as Detail[];
  const { name, ...data } = Object.fromEntries(Object.entries(error));
  return Object.keys(data).length > 0 ? [data] : [];
}
