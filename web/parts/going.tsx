// Going from page to page without loading: the address, and links that change it.

import type { ComponentChildren } from "preact";
import { useEffect } from "preact/hooks";
import { addressOf, type Page, pageAt } from "../address.ts";
import { keptValue } from "../kept-value.ts";
import { bench } from "../words.ts";

export const here = keptValue<Page>(pageAt(location.pathname, location.search));

addEventListener("popstate", () => here.set(pageAt(location.pathname, location.search)));

export function goTo(page: Page): void {
  history.pushState(null, "", addressOf(page));
  here.set(page);
  scrollTo(0, 0);
  // Whoever listens to the page instead of seeing it hears that it is another one.
  requestAnimationFrame(() => document.querySelector<HTMLElement>("main")?.focus({ preventScroll: true }));
}

/** Another address for the page that is shown, such as with other runs picked. */
export function showAs(page: Page): void {
  history.replaceState(null, "", addressOf(page));
  here.set(page);
}

interface GoProps {
  readonly to: Page;
  readonly class?: string;
  readonly children: ComponentChildren;
}

/** A link to a page of the bench. */
export function Go({ to, class: className, children }: GoProps) {
  const follow = (event: MouseEvent) => {
    if (event.ctrlKey || event.metaKey || event.shiftKey || event.button !== 0) return;
    event.preventDefault();
    goTo(to);
  };
  return (
    <a href={addressOf(to)} class={className} onClick={follow}>
      {children}
    </a>
  );
}

/** Names the page in the browser's title. */
export function useTitle(title: string): void {
  useEffect(() => {
    document.title = title;
  }, [title]);
}

/** The way back: all fridges, and the fridge that a page is about. */
export function Way({ fridge }: { readonly fridge?: { readonly id: string; readonly name: string } }) {
  return (
    <nav class="back" aria-label={bench.shell.way}>
      <Go to={{ page: "first" }}>{bench.shell.toFridges}</Go>
      {fridge === undefined ? null : <Go to={{ page: "fridge", fridgeId: fridge.id }}>{fridge.name}</Go>}
    </nav>
  );
}
