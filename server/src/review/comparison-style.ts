/** The look of a comparison as a page: light or dark as the reader has it, and told by weight, rule and word on a printer without colour. */
export const STYLE = `:root{color-scheme:light dark;--ink:#14181c;--soft:#4d565e;--paper:#fff;--rule:#b9c0c6;--wash:#f3f5f6;--first:#a8001c;--gone:#1b6b3a}
@media (prefers-color-scheme:dark){:root{--ink:#e9edf0;--soft:#a9b3bb;--paper:#15191d;--rule:#46505a;--wash:#1e242a;--first:#ff8a94;--gone:#7fd6a0}}
*{box-sizing:border-box}
html{font:16px/1.5 "Liberation Sans","Helvetica Neue",Helvetica,Arial,"DejaVu Sans",sans-serif;color:var(--ink);background:var(--paper)}
body{margin:0}
main{max-width:60rem;margin:0 auto;padding:2.5rem 1.5rem 4rem}
h1{font-size:1.15rem;margin:0;font-weight:400;color:var(--soft)}
h2{font-size:1.9rem;line-height:1.15;margin:2.2rem 0 .2rem;letter-spacing:-.01em;text-wrap:balance}
h3{font-size:1rem;margin:2rem 0 .5rem;padding:0 0 .3rem;border-bottom:2px solid var(--ink);break-after:avoid}
h3 .n{font-weight:400;color:var(--soft)}
h3.first{color:var(--first);border-color:var(--first)}
h3.gone{color:var(--gone);border-color:var(--gone)}
p{margin:.3rem 0}
.about{color:var(--soft)}
.note{border:2px solid var(--first);padding:.5rem .8rem;font-weight:700}
ol{list-style:none;margin:0;padding:0}
li{padding:.6rem .8rem .6rem 1rem;border-bottom:1px solid var(--rule);break-inside:avoid}
li.first{border-left:4px solid var(--first);background:var(--wash)}
li.first>p:first-child{font-weight:700}
.when{font-style:italic;font-weight:400}
.place{font:.82rem/1.4 "Liberation Mono","DejaVu Sans Mono",Menlo,Consolas,monospace;color:var(--soft);overflow-wrap:anywhere}
.said{margin:.4rem 0 .2rem;padding:.4rem .8rem;border-left:2px solid var(--rule)}
del{text-decoration:line-through;text-decoration-thickness:2px;color:var(--soft)}
ins{text-decoration:underline;text-decoration-thickness:2px;text-underline-offset:3px;font-weight:700}
table{border-collapse:collapse;margin:.5rem 0;font-variant-numeric:tabular-nums}
th,td{text-align:right;padding:.35rem 0 .35rem 2rem;border-bottom:1px solid var(--rule);font-weight:400}
th:first-child{text-align:left;padding-left:0}
thead td{border-bottom:2px solid var(--ink)}
thead th{color:var(--soft);font-size:.85rem;border-bottom:2px solid var(--ink)}
td:last-child{font-weight:700}
.foot{margin-top:2.5rem;padding-top:.6rem;border-top:2px solid var(--ink);font-size:.85rem;color:var(--soft)}
@media (max-width:40rem){main{padding:1.2rem .9rem}h2{font-size:1.5rem}th,td{padding-left:.9rem}}
@media print{:root{--ink:#000;--soft:#333;--paper:#fff;--rule:#888;--wash:#fff;--first:#000;--gone:#000}html{font-size:10.5pt}main{max-width:none;padding:0}}
`;

/** Over it the colours of the editor's theme, which a page there is given as variables. */
export const IN_EDITOR = `body{--ink:var(--vscode-editor-foreground);--soft:var(--vscode-descriptionForeground);--paper:var(--vscode-editor-background);--rule:var(--vscode-widget-border,var(--vscode-contrastBorder,currentcolor));--wash:var(--vscode-textBlockQuote-background);--first:var(--vscode-errorForeground);--gone:var(--vscode-testing-iconPassed,var(--vscode-editor-foreground));color:var(--ink);background:var(--paper)}
body.vscode-high-contrast,body.vscode-high-contrast-light{--wash:var(--paper)}
`;
