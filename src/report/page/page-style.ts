// The page's style sheet: a letter, one column, light or dark as the reader's system is, and A4 in print.

import { inks, papers, tones } from "../drawing/inks.ts";

const variables = (paper: "light" | "dark") =>
  `--paper:${papers[paper]};${Object.entries({ ...tones, ...inks })
    .map(([name, colour]) => `--${name}:${colour[paper]};`)
    .join("")}`;
/** Colours as custom properties, for either paper. */
export const lightPaper = variables("light");
/** The same on dark paper. */
export const darkPaper = variables("dark");
const inkClasses = Object.keys(inks)
  .map((name) => `.line.ink-${name}{stroke:var(--${name})}.area.ink-${name},.words.ink-${name}{fill:var(--${name})}`)
  .join("\n");

/** Holds nothing that would have to be fetched. */
export const pageStyle = `
:root{color-scheme:light dark;${lightPaper}}
@media (prefers-color-scheme:dark){:root{${darkPaper}}}
*{box-sizing:border-box}
body{margin:0;background:var(--paper);color:var(--text);font:1.0625rem/1.6 Charter,"Bitstream Charter","Sitka Text",Cambria,Georgia,serif}
main{max-width:46rem;margin:0 auto;padding:2.5rem 1.25rem 4rem}
h1,h2,h3,h4,h5{line-height:1.25;margin:2.2em 0 .5em;text-wrap:balance}
h1{font-size:1.9rem;margin-top:0}
.many h1{font-size:1.6rem;color:var(--quiet);font-weight:500}
.many article>h2{font-size:1.9rem}
section>h2,.many section>h3{font-size:1.3rem}
section section>h3,.many section section>h4{font-size:1.08rem}
p,ul,ol,dl,table,figure{margin:0 0 1em}
.when,.particulars,.note,figcaption,footer{color:var(--quiet)}
.when,.particulars,.note,figcaption,footer,details{font-size:.92rem}
.in-a-sentence{font-size:1.25rem;line-height:1.45}
.verdicts{list-style:none;padding:0;font-size:1.12rem}
.verdicts li{margin:.35em 0}
.verdict{font-weight:700;text-decoration:underline;text-decoration-thickness:.14em;text-underline-offset:.2em}
.verdict.sound,.verdict.better,.verdict.same{text-decoration-style:solid}
.verdict.weak,.verdict.worse{text-decoration-style:dashed}
.verdict.not-cooling{text-decoration-style:double}
.verdict.undecided{text-decoration-style:dotted}
article+article{margin-top:5rem;border-top:3px double var(--rule);padding-top:1rem}
figure{margin:1.6em 0}
svg{display:block;width:100%;height:auto;overflow:visible;font-family:system-ui,-apple-system,"Segoe UI","DejaVu Sans",Arial,sans-serif}
svg.narrow{display:none}
.line{fill:none;stroke-linejoin:round}
.words{paint-order:stroke;stroke:var(--paper);stroke-width:3px;stroke-linejoin:round}
${inkClasses}
figcaption{margin-top:.6em}
details{margin-top:.6em}
summary{cursor:pointer;color:var(--link);text-decoration:underline;text-underline-offset:.2em}
.scroll{overflow-x:auto}
.scroll:focus-visible,summary:focus-visible{outline:2px solid var(--link);outline-offset:2px}
table{border-collapse:collapse;width:100%;font-size:.95rem;font-variant-numeric:tabular-nums}
caption{text-align:left;color:var(--quiet);font-size:.92rem;padding:.3em 0}
th,td{text-align:left;vertical-align:top;padding:.4em .9em .4em 0;border-bottom:1px solid var(--rule)}
th{font-weight:600}
.causes tbody th{font-weight:400}
.causes td,.causes thead th+th{text-align:right;padding-right:0}
thead th{color:var(--quiet);font-weight:500}
.readings th,.readings td{text-align:right;white-space:nowrap;padding:.2em .7em .2em 0}
.readings caption,.readings th:first-child,.readings td:first-child{text-align:left}
.interval,.unit{display:block;color:var(--quiet);font-weight:400;font-size:.9em}
.numbers tr:not(.shows) th,.numbers tr:not(.shows) td{border-bottom:0;padding-bottom:0}
.shows td{font-size:.92em;line-height:1.45;color:var(--quiet);padding-top:.15em}
dl{display:grid;grid-template-columns:max-content 1fr;gap:.2em 1.2em}
dt{color:var(--quiet)}
dd{margin:0}
.checks>li{margin-bottom:1.5em}
.checks strong{display:block}
.caution{border-left:4px solid var(--care);background:var(--care-paper);padding:.7em 1em;margin:.6em 0 0;font-size:.95rem}
.caution p{margin:0 0 .5em}
.caution p:last-child{margin:0}
.caution b{color:var(--care)}
.events{list-style:none;padding:0}
.letter{display:inline-block;min-width:1.6em;color:var(--event);font:600 .95em system-ui,"DejaVu Sans",sans-serif}
code{font-size:.82em;overflow-wrap:anywhere}
footer{margin-top:4rem;border-top:1px solid var(--rule);padding-top:1rem}
.steps,.ticks{list-style:none;padding:0}
.steps>li{margin:.7em 0}
.steps dl{margin:.3em 0 .3em 1.2em;gap:.1em 1.2em}
.ticks>li{margin:.3em 0;padding-left:1.7em}
.box{float:left;margin:.3em 0 0 -1.7em;width:.9em;height:.9em;border:1.5px solid var(--text)}
.care{color:var(--care);font-size:.92em}
.test-report header{display:grid;grid-template-columns:1fr max-content;gap:0 2rem;border-bottom:1px solid var(--rule);margin-bottom:1em}
.test-report header p{margin:0}
.test-report h1{margin:.1em 0}
.test-report h2{margin:1.2em 0 .3em;font-size:1.15rem}
.test-report .verdicts li{margin:0 0 .7em;padding-left:.6em;border-left:3px solid var(--text)}
.test-report .why{display:block;font-size:1rem}
.test-report figure{margin:.5em 0}
.test-report figcaption{color:var(--text);font-weight:600;margin:0 0 .2em}
.test-report .drawings{display:grid;grid-template-columns:1fr 1fr;gap:0 1.5em;margin-bottom:.5em}
.test-report .across{grid-column:1/-1}
.test-report .events li{display:grid;grid-template-columns:3em 1fr;margin-bottom:.2em}
.test-report .mark{color:var(--quiet)}
.test-report .note{line-height:1.4}
.test-report footer{border:0;margin-top:2rem}
.signatures{list-style:none;padding:0;display:grid;grid-template-columns:repeat(auto-fit,minmax(9rem,1fr));gap:0 1.5rem}
.signatures li{border-top:1px solid var(--text);margin-top:2.6em;padding-top:.2em;color:var(--quiet);font-size:.92rem}
@media (max-width:38rem){
.test-report header,.test-report .drawings{grid-template-columns:1fr}
main{padding:1.5rem 1rem 3rem}
h1,.many article>h2{font-size:1.55rem}
svg.wide{display:none}
svg.narrow{display:block}
dl{grid-template-columns:1fr;gap:0}
dd{margin:0 0 .5em}
.numbers thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.numbers,.numbers caption,.numbers tbody,.numbers tr,.numbers th,.numbers td{display:block}
.numbers th,.numbers td{border:0;padding:.1em 0}
.numbers tbody{padding:.6em 0;border-bottom:1px solid var(--rule)}
.numbers td[data-label]::before{content:attr(data-label) ": ";color:var(--quiet)}
.numbers .interval{display:inline}
.numbers .interval::before{content:"("}
.numbers .interval::after{content:")"}
}
@page{size:A4;margin:18mm 16mm}
@page plan{size:A4;margin:10mm 12mm}
@page report{size:A4;margin:12mm 15mm}
.in-print-only{display:none}
@media print{
.in-print-only{display:inline}
:root{color-scheme:light;${lightPaper}}
html{font-size:9.5pt}
body{line-height:1.45}
main{max-width:none;padding:0}
svg.wide{display:block;max-width:155mm}
svg.narrow{display:none}
h1,h2,h3,h4,h5{break-after:avoid}
figure,.caution,.particulars,table,tr,.verdicts li,dl{break-inside:avoid}
.particulars,.when,caption,thead,.checks strong{break-after:avoid}
.caution{break-before:avoid}
details:not(.in-print){display:none}
.in-print>summary{display:none}
.in-print::details-content{content-visibility:visible;display:block;block-size:auto}
html:has(.plan){font-size:6.8pt}
.plan{page:plan;font-size:1rem;line-height:1.25}
.plan h1{font-size:1.7rem}
.plan h2{font-size:1.25rem;margin:.5em 0 .15em}
.plan p,.plan ul,.plan ol{margin:0 0 .3em}
.plan .steps>li{margin:.25em 0}
.plan .steps dl{margin-left:.6em;column-gap:.8em}
.plan .steps,.plan .ticks,.plan .caution{columns:2;column-gap:1.6em}
.plan .ticks>li,.plan .steps dl,.plan .caution p{break-inside:avoid}
.plan .ticks>li{margin:0 0 .3em}
.plan .caution{padding:.3em .7em;margin:0}
.plan footer{margin-top:.4em;padding-top:.3em}
.checks>li{break-inside:avoid}
footer{margin-top:2rem}
html:has(.test-report){font-size:7.6pt}
.test-report{page:report;font-size:1rem;line-height:1.35}
.test-report .verdicts{display:grid;grid-auto-flow:column;grid-auto-columns:1fr;gap:1.5em}
.test-report .verdicts strong{display:block;margin-top:.3em}
.test-report .drawings{grid-template-columns:1fr 1fr}
.test-report svg.wide{max-width:none}
.test-report .spare{display:none}
.test-report .columns{columns:2;column-gap:1.6em}
.test-report .columns section:first-child h2{margin-top:0}
.test-report li,.test-report .note{break-inside:avoid}
.test-report .note{break-before:avoid}
.test-report p,.test-report ul,.test-report ol,.test-report dl{margin:0 0 .4em}
.test-report dl{gap:.05em 1em}
.test-report .columns dl{grid-template-columns:fit-content(45%) 1fr}
.test-report header+dl{grid-template-columns:max-content 1fr max-content 1fr}
.test-report .checks{padding-left:1.4em}
.test-report .checks>li{margin-bottom:.6em}
.test-report .caution{padding:.35em .8em}
.test-report .caution p{margin:0 0 .15em}
.test-report footer{margin-top:1em;padding:0}
article+article{break-before:page;border:0;margin:0;padding:0}
p{orphans:3;widows:3}
}
`;
