/** Hashes of inputs and the six characters that stand for them on a card. */
import { createHash } from 'node:crypto';
import { closeSync, openSync, readSync } from 'node:fs';
import type { PlanInput } from '../core/plan/plan.ts';

/** Letters and digits that survive a radio and a pencil: no O or 0, I or 1, B or 8, S or 5. */
export const fingerprintAlphabet = 'ACDEFGHJKLMNPQRTUVWXYZ234679';
const length = 6;

export function sha256(data: string | Uint8Array): string {
  return createHash('sha256').update(data).digest('hex');
}

const pieceBytes = 1 << 20;

/** The hash of a file, which is read piece by piece, so that a large one is not held. */
export function sha256OfFile(path: string): string {
  const hash = createHash('sha256');
  const piece = Buffer.alloc(pieceBytes);
  const descriptor = openSync(path, 'r');
  try {
    for (;;) {
      const length = readSync(descriptor, piece, 0, pieceBytes, null);
      if (length === 0) return hash.digest('hex');
      hash.update(piece.subarray(0, length));
    }
  } finally {
    closeSync(descriptor);
  }
}

/** Six characters of the hash of all inputs and of the program's name and version: one of 4.8e8. */
export function fingerprintOf(inputs: readonly PlanInput[], program: string): string {
  const all = inputs.map((input) => `${input.role} ${input.sha256}`).sort();
  let rest = BigInt(`0x${sha256([program, ...all].join('\n'))}`);
  const base = BigInt(fingerprintAlphabet.length);
  let text = '';
  for (let i = 0; i < length; i++) {
    text += fingerprintAlphabet[Number(rest % base)];
    rest /= base;
  }
  return text;
}
