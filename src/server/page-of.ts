// A list cut into pages by a cursor: the id of the last item that was shown.

/** @param cursor `next` of the page before; an item that is gone meanwhile begins anew, so that nothing is passed over */
export function pageOf<Item extends { readonly id: string }>(
  items: readonly Item[],
  limit: number,
  cursor: string | undefined,
): { readonly page: readonly Item[]; readonly next: string | null } {
  const at = cursor === undefined ? -1 : items.findIndex(({ id }) => id === cursor);
  const page = items.slice(at + 1, at + 1 + limit);
  const isLast = at + 1 + limit >= items.length;
  return { page, next: isLast ? null : (page.at(-1)?.id ?? null) };
}
