// Advice in words: checks and proofs, each in one object with its cautions.

import type { CautionCode, NextCheck, UnitProof } from "../science/index.ts";
import type { Teller } from "./teller.ts";
import { say } from "./words/index.ts";

export interface CheckTelling {
  readonly title: string;
  readonly text: string;
  readonly note: string;
  readonly caution: CautionTelling | null;
}

export interface CautionTelling {
  readonly subjects: readonly CautionSubject[];
  /** What holds for every caution. */
  readonly close: string;
}

export interface CautionSubject {
  /** Its short name. */
  readonly about: string;
  readonly text: string;
  /** The same text stands with an advice further up the same letter, so that here its short name may do. */
  readonly isRepeated: boolean;
}

/** A check's words with its caution: the one way any face gets advice. */
export function tellCheck(check: NextCheck, teller: Teller): CheckTelling {
  const {
    words: { report, checks, names },
    hand,
  } = teller;
  const { title, text } = checks[check.check];
  const apart = check.separates.map((cause) => names.causeNames[cause]);
  const note = report.checkNote(hand.span(check.minutes / 60));
  return {
    title,
    text,
    note: apart.length === 0 ? note : `${note} ${report.tellsApart(report.list(apart))}`,
    caution: tellCautions(check.cautions, teller),
  };
}

/** A proof's words with its caution, as a check has them. */
export function tellProof({ proof, state, seen, cautions }: UnitProof, teller: Teller): CheckTelling {
  const {
    words: { report, condemning },
    hand,
  } = teller;
  return {
    title: report.proof(condemning.proofNames[proof], condemning.proofStates[state]),
    text: say(condemning.proofs, seen, hand),
    note: "",
    caution: tellCautions(cautions, teller),
  };
}

/** The cautions that belong to an advice; null where it comes near nothing. */
export function tellCautions(
  codes: readonly CautionCode[],
  { words: { cautions, cautionClose } }: Teller,
): CheckTelling["caution"] {
  if (codes.length === 0) return null;
  return { subjects: codes.map((code) => ({ ...cautions[code], isRepeated: false })), close: cautionClose };
}

/**
 * Marks what need not be told in full again: eight times the same caution is read by nobody.
 *
 * @param advice of one letter or list, in the order in which it is read
 */
export function repeatsMarked<Advice extends Pick<CheckTelling, "caution">>(advice: readonly Advice[]): Advice[] {
  const said = new Set<string>();
  return advice.map((one) => {
    if (one.caution === null) return one;
    const subjects = one.caution.subjects.map((subject) => ({ ...subject, isRepeated: said.has(subject.text) }));
    for (const { text } of subjects) said.add(text);
    return { ...one, caution: { ...one.caution, subjects } };
  });
}

/** The cautions to tell in full, and the short names of those that stand further up. */
export function cautionParts({ subjects }: CautionTelling): {
  readonly full: readonly CautionSubject[];
  readonly again: readonly string[];
} {
  return {
    full: subjects.filter(({ isRepeated }) => !isRepeated),
    again: subjects.filter(({ isRepeated }) => isRepeated).map(({ about }) => about),
  };
}
