// Plans told: text, page, JSON.
export { planDocument } from "./plan-document.ts";
export { planPage } from "./plan-page.ts";
export { tellPlanRefusal } from "./plan-telling.ts";
export { planText } from "./plan-text.ts";
