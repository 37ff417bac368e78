import { expect, test } from "vitest";
import { addressOf, type Page, pageAt } from "../../web/address.ts";

const pages: readonly Page[] = [
  { page: "first" },
  { page: "fridge", fridgeId: "a b/c" },
  { page: "run", runId: "r1" },
  { page: "run-report", runId: "r1" },
  { page: "before-and-after", fridgeId: "f", before: "", after: "" },
  { page: "before-and-after", fridgeId: "f", before: "r1", after: "r2" },
  { page: "service-report", fridgeId: "f", before: "r1", after: "r2" },
  { page: "hot-days", fridgeId: "f" },
  { page: "before-you-start", fridgeId: "f" },
  { page: "bring-in", fridgeId: "f" },
];

test("every page has an address that leads back to it", () => {
  for (const page of pages) {
    const { pathname, search } = new URL(addressOf(page), "http://bench");
    expect(pageAt(pathname, search)).toEqual(page);
  }
});

test("an address that is none of ours leads nowhere, and breaks nothing", () => {
  for (const path of ["/fridge", "/fridge/", "/run/x/y", "/fridge/x/y", "/a/b/c/d", "/run/%E0%A4%A"])
    expect(pageAt(path, "").page).toBe(path === "/run/%E0%A4%A" ? "run" : "nowhere");
});
