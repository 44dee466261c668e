/** Hashes of inputs and the six characters that stand for them on a card. */
import { createHash } from 'node:crypto';
import type { PlanInput } from '../core/plan/plan.ts';

/** Letters and digits that survive a radio and a pencil: no O or 0, I or 1, B or 8, S or 5. */
export const fingerprintAlphabet = 'ACDEFGHJKLMNPQRTUVWXYZ234679';
const length = 6;

export function sha256(data: string | Uint8Array): string {
  return createHash('sha256').update(data).digest('hex');
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
