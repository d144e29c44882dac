import { chartStyle } from '../charts/chart-style.ts';

const light = `
  --paper: #eef1ef; --panel: #fbfcfb; --ink: #17211f; --quiet: #51605b; --line: #cbd4d0; --line-strong: #75837e;
  --larger: #1a5f9e; --smaller: #a65a00; --trouble: #a2390a; --fine: #17635f; --before: #6d7b77;
  --commanded: #4c5a56; --actual: #1a5f9e; --caution-wash: #f3ebd2; --accent: #15506f;`;
const dark = `
  --paper: #11171a; --panel: #192125; --ink: #e4eae7; --quiet: #a3b2ad; --line: #303c41; --line-strong: #6b7c7f;
  --larger: #7db9ec; --smaller: #f0b25a; --trouble: #ff9d6b; --fine: #74cbc1; --before: #93a39e;
  --commanded: #b8c5c0; --actual: #7db9ec; --caution-wash: #352c14; --accent: #8cc4e4;`;

/** The whole style sheet of the report page: light and dark by the reader's setting, always light on paper. */
export const pageStyle = `
:root { color-scheme: light dark; ${light} }
@media (prefers-color-scheme: dark) { :root { ${dark} } }
@media print { :root { color-scheme: light; ${light} --paper: #fff; --panel: #fff; } }
* { box-sizing: border-box; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 16px/1.5 system-ui, sans-serif; }
main { max-width: 60rem; margin: 0 auto; padding: 1.5rem 1rem 4rem; }
h1 { font-size: 1.7rem; line-height: 1.2; margin: 0 0 0.3rem; overflow-wrap: anywhere; }
h2 { font-size: 1.25rem; margin: 2.2rem 0 0.6rem; padding-bottom: 0.2rem; border-bottom: 2px solid var(--line); }
h3 { font-size: 1rem; margin: 1.4rem 0 0.3rem; overflow-wrap: anywhere; }
p { margin: 0.4rem 0; max-width: 46rem; }
ul { margin: 0.4rem 0; padding-left: 1.3rem; max-width: 46rem; }
.quiet, figcaption { color: var(--quiet); font-size: 0.92em; }
.verdict { font-size: 1.2rem; font-weight: 600; border-left: 0.4rem solid var(--trouble); padding: 0.2rem 0 0.2rem 0.9rem; }
.verdict.good { border-color: var(--fine); }
.verdict.open { border-color: var(--quiet); }
.cautions { background: var(--caution-wash); border: 1px solid var(--line-strong); border-radius: 6px; padding: 0.6rem 1rem; margin-top: 1rem; }
.cautions h3 { margin-top: 0; }
figure { margin: 1.2rem 0; background: var(--panel); border: 1px solid var(--line); border-radius: 8px; padding: 0.4rem 1rem 0.8rem; }
figure h3 { margin: 0.5rem 0; }
.table-frame { overflow-x: auto; }
svg.chart { display: block; width: 100%; height: auto; }
svg.chart.is-narrow { display: none; max-width: 30rem; margin: 0 auto; }
@media screen and (max-width: 40rem) {
  svg.chart.is-wide { display: none; }
  svg.chart.is-narrow { display: block; }
  /* A shade at an edge says that there is more of the table beyond it: it lies still, what covers it moves with the table. */
  .table-frame {
    background:
      linear-gradient(to right, var(--paper) 1.2rem, transparent) left / 2.4rem 100% no-repeat local,
      linear-gradient(to left, var(--paper) 1.2rem, transparent) right / 2.4rem 100% no-repeat local,
      linear-gradient(to right, var(--line-strong), transparent) left / 0.9rem 100% no-repeat scroll,
      linear-gradient(to left, var(--line-strong), transparent) right / 0.9rem 100% no-repeat scroll;
  }
}
table { border-collapse: collapse; font-variant-numeric: tabular-nums; font-size: 0.92rem; margin: 0.5rem 0; }
caption { text-align: left; font-weight: 600; padding: 0.3rem 0; }
th, td { padding: 0.2rem 0.7rem 0.2rem 0; text-align: right; border-bottom: 1px solid var(--line); white-space: nowrap; }
th { font-weight: 600; vertical-align: bottom; }
th.left, td.left { text-align: left; }
td.wrap { white-space: normal; text-align: left; overflow-wrap: anywhere; min-width: 10rem; }
tr.few td { color: var(--quiet); }
@page { margin: 15mm; }
@media print {
  body { font-size: 10.5pt; }
  table { font-size: 8.5pt; }
  th, td { padding-right: 0.45rem; }
  main { max-width: none; padding: 0; }
  figure, .cautions, tr { break-inside: avoid; }
  h2, h3, caption { break-after: avoid; }
  .table-frame { overflow: visible; }
  .verdict, .cautions { -webkit-print-color-adjust: exact; print-color-adjust: exact; }
}
${chartStyle}`;
