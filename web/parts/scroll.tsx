// A table wider than a phone: it scrolls by itself, by finger and by key.

import type { ComponentChildren } from "preact";

export function Scroll({ name, children }: { readonly name: string; readonly children: ComponentChildren }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: who has only keys must be able to scroll it
    <section class="scroll" tabIndex={0} aria-label={name}>
      {children}
    </section>
  );
}
