// A caution, as it stands with every advice that needs one.

import { bench } from "../words.ts";

export interface CautionText {
  readonly subjects: readonly { readonly about: string; readonly text: string }[];
  readonly close: string;
}

export function Caution({ caution }: { readonly caution: CautionText | null }) {
  if (caution === null) return null;
  return (
    <div class="caution">
      {caution.subjects.map(({ about, text }) => (
        <p key={about}>
          <b>{bench.care(about)}</b> {text}
        </p>
      ))}
      <p>{caution.close}</p>
    </div>
  );
}
