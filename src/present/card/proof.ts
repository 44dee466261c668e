/** The last card: whether the print is whole, to scale and legible, and who checked it. */
import type { Plan } from '../../core/plan/plan.ts';
import { shortCode } from '../../files/fingerprint.ts';
import { validityLine } from '../foot.ts';
import { BLANK, type Card, type Drawing, words } from './card.ts';
import type { Packed } from './contents.ts';
import { HEIGHT, type Mark, text } from './page.ts';
import { wordsOf } from './words.ts';

/** Letters and digits of the checksum of a kind of cards: one of 6e5. */
const CHECKSUM = 4;

export function proofCard(plan: Plan, pack: readonly Packed[]): Card {
  const count = pack.length + 1;
  return {
    title: 'Proof of print',
    question: 'Is this pack whole, to scale and legible?',
    answer: [
      `${count} cards, numbered 1 to ${count}; this is the last.`,
      `Fingerprint ${plan.fingerprint} on every card. ${validityLine(plan)}.`,
    ],
    table: {
      columns: [
        { name: 'Checked', unit: 'by', holds: 'words' },
        { name: 'Initials', unit: '', holds: 'pencil' },
        { name: 'Time', unit: 'Z', holds: 'pencil' },
      ],
      rows: [
        [words('All cards there, in order, one fingerprint'), BLANK, BLANK],
        [words('Rule, greys and small print below as they should be'), BLANK, BLANK],
      ],
    },
    drawing: printBars,
    notes: [
      `Checksums by kind of card: ${checksums(pack).join('; ')}. Packs whose checksums agree for a kind say the same on it.`,
    ],
  };
}

/** "Climb K4WT", for each kind in the order of the pack. */
function checksums(pack: readonly Packed[]): readonly string[] {
  const kinds = [...new Set(pack.map(({ kind }) => kind))];
  return kinds.map((kind) => {
    const said = pack.filter((packed) => packed.kind === kind).map(({ card }) => wordsOf(card));
    return `${kind}\u00a0${shortCode(said.join('\n'), CHECKSUM)}`;
  });
}

const RULE_MM = 100;
const GREYS = 11;

/** A rule of 100 mm with a stroke each 10 mm, a bar from white to black in tenths, and the smallest print. */
const printBars: Drawing = {
  least: 46,
  says: 'A rule of 100 mm, a bar of greys and the smallest print.',
  marks: ({ left, top }) => {
    const marks: Mark[] = [];
    const path = (d: string, grey: number, weight: number | null) =>
      marks.push({ is: 'path', d, at: [left, top], grey, weight, dash: [] });
    const y = 10;
    path(`M0 ${y}h${RULE_MM}`, 0, 0.35);
    for (let mm = 0; mm <= RULE_MM; mm += 10) {
      path(`M${mm} ${y}v${mm % 50 === 0 ? -4 : -2.5}`, 0, 0.25);
    }
    text(marks, left, top + y + 5, 'This rule is 100 mm long; each stroke 10 mm.', HEIGHT.medium, 'regular');
    const step = RULE_MM / (GREYS - 1);
    for (let i = 0; i < GREYS - 1; i++) {
      path(`M${i * step} ${y + 11}h${step}v8h${-step}z`, 1 - (i + 1) / GREYS, null);
    }
    text(marks, left, top + y + 24, 'Ten greys, each darker than the one before.', HEIGHT.medium, 'regular');
    const small = 'Smallest print: 0 O 8 B 6 1 I l 5 S 2 Z \u2212 \u00b1 \u00b0 \u00d7 \u2264';
    text(marks, left, top + y + 30, small, HEIGHT.small, 'regular');
    return marks;
  },
};
