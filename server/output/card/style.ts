/** How a printed card looks: a quiet sheet that fits one page of A4 or Letter, and reads on a phone, in light and in dark. */

/**
 * The hash by which the page's content policy lets this style in, and nothing else: SHA-256 of `STYLE`, base64. A test works it out
 * anew and says what it must be.
 */
export const STYLE_HASH = 'sha256-NkqE3ZhQ2rw9kjGIWaYe602zPTYnWrdu6t7scU+vkuI=';

export const STYLE = `
:root { color-scheme: light dark; --ink: #1d211f; --quiet: #56605a; --line: #c9cec9; --rule: #31443c; --paper: #fff; --warn: #7a3b00; }
@media (prefers-color-scheme: dark) {
  :root { --ink: #e6e8e4; --quiet: #a9b2ab; --line: #49524c; --rule: #9dbbab; --paper: #191c1a; --warn: #f0b27a; }
}
* { box-sizing: border-box; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 15px/1.45 'Helvetica Neue', Helvetica, Arial, 'Liberation Sans', system-ui, sans-serif; }
main { max-width: 62rem; margin: 0 auto; padding: 1.5rem 1.25rem 3rem; }
.contents { margin-bottom: 2.5rem; }
.contents ul { padding-left: 1.1em; }
a { color: var(--rule); }
.card + .card { margin-top: 4rem; padding-top: 2rem; border-top: 3px double var(--rule); }
.title, .label { font-family: 'Iowan Old Style', 'Palatino Linotype', Palatino, 'Book Antiqua', 'Liberation Serif', Georgia, serif; font-weight: 600; color: var(--rule); overflow-wrap: anywhere; }
.title { margin: 0; font-size: 2rem; line-height: 1.15; letter-spacing: -.01em; }
.label { margin: 0 0 .35rem; padding-bottom: .15rem; border-bottom: 1.5px solid var(--rule); font-size: 1.15rem; }
.minor { margin: .7rem 0 .15rem; font-size: 1em; font-weight: 600; }
p, ul, ol, dl, table { margin: 0; }
.yield { margin-top: .25rem; font-size: 1.05rem; }
.figures { display: flex; flex-wrap: wrap; gap: .25rem 1.6rem; margin: .7rem 0 0; padding: .45rem 0; border: solid var(--line); border-width: 1px 0; }
dt { color: var(--quiet); font-size: .82em; }
dd { margin: 0; font-variant-numeric: tabular-nums; }
.body { display: flex; flex-direction: column; gap: 1.5rem; margin-top: 1.4rem; }
.column { display: contents; }
.weigh { order: 1; } .method { order: 2; } .when { order: 3; } .notes { order: 4; } .made-of { order: 5; } .mind { order: 6; } .food { order: 7; }
table { width: 100%; border-collapse: collapse; font-variant-numeric: tabular-nums; }
th, td { padding: .18rem .5rem .18rem 0; border-bottom: 1px solid var(--line); text-align: left; vertical-align: baseline; font-weight: 400; overflow-wrap: break-word; }
tr > :last-child { padding-right: 0; }
thead th { color: var(--quiet); font-size: .82em; }
.part th { padding-top: .7rem; border-bottom: 1.5px solid var(--line); font-weight: 600; }
.part small { font-weight: 400; }
.num { text-align: right; white-space: nowrap; }
.weigh .num { width: 1%; padding-right: .8rem; }
.must td:first-child { font-weight: 700; }
.sum > * { color: var(--quiet); border-bottom: 0; }
.within th { padding-left: 1em; }
small, .small { font-size: .86em; color: var(--quiet); }
.home { color: var(--quiet); }
ol { padding-left: 1.55em; }
ol li::marker { color: var(--rule); font-weight: 600; font-variant-numeric: tabular-nums; }
li { padding: .1rem 0; }
.inside { list-style: none; padding-left: .9em; border-left: 2px solid var(--line); margin: .15rem 0 .25rem; }
.clock { float: right; padding-left: .8em; color: var(--quiet); font-variant-numeric: tabular-nums; }
.lists div { display: flex; gap: .6em; align-items: baseline; }
.days dt { margin-top: .2rem; color: var(--ink); font-size: 1em; font-weight: 600; }
.days b { color: var(--quiet); font-weight: 600; }
.cautions { padding-left: 1.1em; }
.cautions li::marker { content: '! '; color: var(--warn); font-weight: 700; }
.after { margin-top: .4rem; }
@media (min-width: 46rem) {
  .body { display: grid; grid-template-columns: minmax(0, 1.1fr) minmax(0, 1fr); gap: 0 2.2rem; align-items: start; }
  .column { display: block; }
  .column section + section { margin-top: 1.4rem; }
  .home { white-space: nowrap; }
}
@media (max-width: 27rem) {
  .weigh .home { font-size: .86em; }
  main { padding: 1rem .9rem 2rem; }
}
@page { margin: 10mm 12mm; }
@media print {
  :root { color-scheme: light; --ink: #000; --quiet: #3c423f; --line: #b9beb9; --rule: #24332d; --paper: #fff; --warn: #000; }
  body { font-size: 8pt; line-height: 1.24; }
  main { max-width: none; padding: 0; }
  .contents { display: none; }
  .card + .card { break-before: page; margin: 0; padding: 0; border: 0; }
  .title { font-size: 18pt; }
  .label { font-size: 10.5pt; }
  .yield { font-size: 9.5pt; }
  .figures { margin-top: 4pt; padding: 2.5pt 0; gap: 0 14pt; }
  .body { display: grid; grid-template-columns: minmax(0, 1.1fr) minmax(0, 1fr); gap: 0 15pt; align-items: start; margin-top: 8pt; }
  .column { display: block; }
  .column section + section { margin-top: 6.5pt; }
  .home { white-space: nowrap; }
  th, td { padding-top: .7pt; padding-bottom: .7pt; }
  .part th { padding-top: 3pt; }
  .minor { margin: 3pt 0 0; }
  li { padding: .3pt 0; }
  tbody, li { break-inside: avoid; }
  .label, .minor { break-after: avoid; }
}
`;
