// Where the focus goes when what had it goes away: a pressed button that is not needed any more, a line that was taken out.
// Left alone, the next Tab would begin at the top of the page.

import type { RefObject } from "preact";
import { useLayoutEffect, useRef } from "preact/hooks";

/**
 * Keeps the focus within a part of the page. `landing` must take it (tabIndex -1): a heading or a sentence that says what
 * became of it.
 */
export function useFocusKept(part: RefObject<HTMLElement | null>, landing: RefObject<HTMLElement | null>): void {
  const isWithin = useRef(false);
  useLayoutEffect(() => {
    const holder = part.current;
    if (holder === null) return;
    const came = () => {
      isWithin.current = true;
    };
    // What is taken off the page or made idle loses the focus to nothing; a reader who goes elsewhere takes it along.
    const went = ({ relatedTarget }: FocusEvent) => {
      if (relatedTarget instanceof Node && !holder.contains(relatedTarget)) isWithin.current = false;
    };
    const pressedElsewhere = ({ target }: Event) => {
      if (target instanceof Node && !holder.contains(target)) isWithin.current = false;
    };
    holder.addEventListener("focusin", came);
    holder.addEventListener("focusout", went);
    document.addEventListener("pointerdown", pressedElsewhere);
    return () => {
      holder.removeEventListener("focusin", came);
      holder.removeEventListener("focusout", went);
      document.removeEventListener("pointerdown", pressedElsewhere);
    };
  }, [part.current]);
  useLayoutEffect(() => {
    // A button made idle loses it only with the screen's next frame.
    const frame = requestAnimationFrame(() => {
      const isLost = document.activeElement === null || document.activeElement === document.body;
      if (isWithin.current && isLost) landing.current?.focus();
    });
    return () => cancelAnimationFrame(frame);
  });
}
