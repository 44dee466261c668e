/** Hashes of inputs and the six characters that stand for them on a card. */
import { sha256 as hash } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import type { PlanInput } from '../core/plan/plan.ts';
import { openFile } from './disk.ts';

/** Letters and digits that survive a radio and a pencil: no O or 0, I or 1, B or 8, S or 5. */
export const fingerprintAlphabet = 'ACDEFGHJKLMNPQRTUVWXYZ234679';
const length = 6;

export function sha256(data: string | Uint8Array): string {
  return bytesToHex(hash(typeof data === 'string' ? utf8ToBytes(data) : data));
}

const pieceBytes = 1 << 20;

/** The hash of a file, which is read piece by piece, so that a large one is not held. */
export function sha256OfFile(path: string): string {
  const all = hash.create();
  const file = openFile(path);
  if (file === null) throw Object.assign(new Error(`${path}: no such file`), { code: 'ENOENT', path });
  try {
    for (let at = 0; at < file.size; at += pieceBytes)
      all.update(file.read(at, Math.min(at + pieceBytes, file.size)));
    return bytesToHex(all.digest());
  } finally {
    file.close();
  }
}

/** Six characters of the hash of all inputs and of the program's name and version: one of 4.8e8. */
export function fingerprintOf(inputs: readonly PlanInput[], program: string): string {
  const all = inputs.map((input) => `${input.role} ${input.sha256}`).sort();
  return shortCode([program, ...all].join('\n'), length);
}

/** Some characters of the hash of a text. */
export function shortCode(text: string, characters: number): string {
  let rest = BigInt(`0x${sha256(text)}`);
  const base = BigInt(fingerprintAlphabet.length);
  let code = '';
  for (let i = 0; i < characters; i++) {
    code += fingerprintAlphabet[Number(rest % base)];
    rest /= base;
  }
  return code;
}
