// Addresses of the pages: what a path means, and the path of a page. Nothing of the browser is needed here.

/** A page of the bench. */
export type Page =
  | { readonly page: "first" }
  | { readonly page: "fridge"; readonly fridgeId: string }
  | { readonly page: "run"; readonly runId: string }
  | { readonly page: "run-report"; readonly runId: string }
  | { readonly page: "before-and-after"; readonly fridgeId: string; readonly before: string; readonly after: string }
  | { readonly page: "service-report"; readonly fridgeId: string; readonly before: string; readonly after: string }
  | { readonly page: "hot-days"; readonly fridgeId: string }
  | { readonly page: "before-you-start"; readonly fridgeId: string }
  | { readonly page: "bring-in"; readonly fridgeId: string }
  | { readonly page: "nowhere" };

/** What an address shows. */
export function pageAt(path: string, search: string): Page {
  const [kind, id, chapter, ...more] = path.split("/").slice(1).map(decoded);
  if (more.length > 0) return nowhere;
  if (kind === "" && id === undefined) return { page: "first" };
  if (id === undefined || id === "") return nowhere;
  if (kind === "run") return runPage(id, chapter);
  if (kind !== "fridge") return nowhere;
  const asked = new URLSearchParams(search);
  const pair = { before: asked.get("before") ?? "", after: asked.get("after") ?? "" };
  switch (chapter) {
    case undefined:
      return { page: "fridge", fridgeId: id };
    case "before-and-after":
      return { page: "before-and-after", fridgeId: id, ...pair };
    case "service-report":
      return { page: "service-report", fridgeId: id, ...pair };
    case "hot-days":
    case "before-you-start":
    case "bring-in":
      return { page: chapter, fridgeId: id };
    default:
      return nowhere;
  }
}

/** The address of a page. */
export function addressOf(page: Page): string {
  switch (page.page) {
    case "first":
    case "nowhere":
      return "/";
    case "run":
      return `/run/${encodeURIComponent(page.runId)}`;
    case "run-report":
      return `/run/${encodeURIComponent(page.runId)}/test-report`;
    case "fridge":
      return `/fridge/${encodeURIComponent(page.fridgeId)}`;
    case "before-and-after":
    case "service-report": {
      const { before, after } = page;
      const pair = before === "" && after === "" ? "" : `?${new URLSearchParams({ before, after })}`;
      return `/fridge/${encodeURIComponent(page.fridgeId)}/${page.page}${pair}`;
    }
    default:
      return `/fridge/${encodeURIComponent(page.fridgeId)}/${page.page}`;
  }
}

const nowhere: Page = { page: "nowhere" };

function runPage(runId: string, chapter: string | undefined): Page {
  if (chapter === undefined) return { page: "run", runId };
  return chapter === "test-report" ? { page: "run-report", runId } : nowhere;
}

function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}
