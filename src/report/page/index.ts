// Letters on one page.
export { lettersPage } from "./page-parts.ts";
