import { cssString } from './html';

export const PAPERS = ['a4', 'letter'] as const;
export type Paper = (typeof PAPERS)[number];

export interface Running {
  readonly paper: Paper;
  /** At the head of every page, left and right, and at its foot. */
  readonly title: string;
  readonly about: string;
  readonly foot: string;
}

/**
 * The look of a printed page: read at arm's length under a vehicle, on a printer without colour. What matters is told by
 * weight, rule and word, and colour only repeats it.
 */
export function styleOf({ paper, title, about, foot }: Running): string {
  return `@page{size:${paper === 'a4' ? 'A4' : 'letter'};margin:22mm 14mm 17mm;
@top-left{content:${cssString(title)};font:700 8.5pt ${FACE};vertical-align:bottom;padding-bottom:1.5mm;margin-bottom:5mm;border-bottom:1.6pt solid #000;width:60%}
@top-right{content:${cssString(about)};font:8.5pt ${FACE};vertical-align:bottom;padding-bottom:1.5mm;margin-bottom:5mm;border-bottom:1.6pt solid #000}
@bottom-left{content:${cssString(foot)};font:7pt ${FACE};vertical-align:top;padding-top:1.5mm;margin-top:3mm;border-top:.6pt solid #000;width:86%}
@bottom-right{content:counter(page) " / " counter(pages);font:700 9pt ${FACE};vertical-align:top;padding-top:1.5mm;margin-top:3mm;border-top:.6pt solid #000}}
${STYLE}`;
}

const FACE = '"Liberation Sans","Helvetica Neue",Helvetica,Arial,"DejaVu Sans",sans-serif';

const STYLE = `*{box-sizing:border-box}
html{font:12pt/1.42 ${FACE};color:#000;background:#fff;-webkit-print-color-adjust:exact;print-color-adjust:exact}
body{margin:0}
main{max-width:186mm;margin:0 auto}
h1{font-size:30pt;line-height:1.08;margin:0 0 3mm;letter-spacing:-.4pt;text-wrap:balance}
h2{font-size:17pt;line-height:1.15;margin:0 0 1mm;break-after:avoid}
h3{font-size:12pt;margin:5mm 0 1mm;break-after:avoid}
p{margin:0 0 2mm}
a{color:inherit;text-decoration:none}
.kicker{font-size:12pt;font-weight:700;margin:0 0 1mm}
.lead{font-size:13pt;margin:0 0 6mm}
.facts{display:grid;grid-template-columns:max-content 1fr;gap:1.2mm 6mm;margin:0 0 6mm;font-size:10.5pt}
.facts dt{font-weight:700}.facts dd{margin:0}
.stop{border:2.4pt solid #000;padding:3mm 4mm;margin:0 0 6mm;font-weight:700}
.stop p:last-child{margin:0}
.first{border-left:3pt solid #000;padding:0 0 0 4mm;margin:0 0 6mm}
.first p:last-child,.first ul{margin-bottom:0}
.contents{columns:2;column-gap:8mm;padding:0;margin:1mm 0 0;list-style:none;font-size:10pt}
.contents li{break-inside:avoid;margin:0 0 1mm}
.page{break-before:page}
.block{margin:0 0 8mm}.keep{break-inside:avoid}
.about{font-size:10pt;margin:0 0 3mm;break-after:avoid}
ol.steps{list-style:none;margin:0 0 9mm;padding:0;border-bottom:.6pt solid #000}
.step{display:grid;grid-template-columns:19mm 1fr 50mm;gap:0 5mm;padding:3.5mm 0;border-top:.6pt solid #000;break-inside:avoid}
.head{break-inside:avoid}
.no{font-size:22pt;font-weight:700;line-height:1;font-variant-numeric:tabular-nums;white-space:nowrap}
.step.wide .words{grid-column:2/-1;max-width:150mm}
.no.long{font-size:13pt;line-height:1.5}
.words p{margin:0}
.words b{font-weight:700}
.words .torque{font-weight:700;white-space:nowrap}
.marks{display:flex;flex-wrap:wrap;gap:1.2mm 2mm;margin:1.6mm 0 0;font-size:8.8pt;line-height:1.3}
.mark{border:1pt solid #000;border-radius:9pt;padding:.2mm 2.2mm}
.mark.when{border:1pt dashed #000;border-radius:0}
.mark.people{background:#000;color:#fff}
.mark.open{border:2pt solid #000;border-radius:0;font-weight:700}
.over{margin:0 0 1.4mm}
.beside{font-size:9.2pt;line-height:1.32}
.call{border-left:2.4pt solid #000;padding:.3mm 0 .3mm 2.4mm;margin:0 0 1.8mm}
.call strong{display:block;font-size:13pt;line-height:1.12;font-variant-numeric:tabular-nums}
.call.later{border-left:3pt double #000}
.call.size,.call.fate{border-left-width:.6pt}
.call i{display:block;font-style:normal;border-top:.6pt dashed #000;margin-top:.6mm;padding-top:.4mm}
.signal{grid-column:1/-1;border:1.8pt solid #000;display:grid;grid-template-columns:42mm 1fr;margin:0 0 3mm}
.signal .word{display:flex;align-items:center;gap:2mm;padding:1.6mm 3mm;font-weight:700;font-size:12.5pt;letter-spacing:.6pt;border-right:1.8pt solid #000;text-transform:uppercase}
.signal .word svg{width:6.2mm;height:6.2mm;flex:none}
.signal .text{padding:1.6mm 3.5mm;align-self:center}
.signal.danger .word{background:#a8001c;color:#fff}
.signal.warning .word{background:#ff8200;color:#000}
.signal.caution .word{background:#ffd100;color:#000}
.signal.notice .word{background:#004b87;color:#fff;font-style:italic}
.signals .signal{margin:0 0 2mm;font-size:10pt}.signals .signal .word{font-size:11pt}
figure{margin:2.5mm 0 0;break-inside:avoid}
figure img{display:block;max-width:100%;max-height:62mm;border:.6pt solid #000}
figure .lost{border:1.2pt dashed #000;padding:4mm;font-size:9.5pt}
figcaption{font-size:9pt;margin-top:.8mm}
table{border-collapse:collapse;width:100%;font-size:9.6pt;line-height:1.3;font-variant-numeric:tabular-nums}
caption{text-align:left;font-weight:700;font-size:12pt;padding:0 0 1mm}
.hidden{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
th{text-align:left;vertical-align:bottom;font-size:8.6pt;border-bottom:1.5pt solid #000;padding:.8mm 2.5mm .8mm 0}
tbody th{font-weight:400;font-size:inherit;border-bottom:.5pt solid #000;vertical-align:top}tbody th span{font-weight:700}tbody th small{display:block;font-size:8.4pt;line-height:1.3}
tbody th[scope=rowgroup]{font-weight:700;width:34mm}
td{vertical-align:top;border-bottom:.5pt solid #000;padding:1.3mm 2.5mm 1.3mm 0}
tr{break-inside:avoid}
thead{display:table-header-group}
.n{text-align:right;white-space:nowrap}
td.strong{font-weight:700;font-size:11.5pt}
.room{width:30mm!important}
.hand{width:21mm;white-space:nowrap;padding-right:0}
th.hand{text-align:left}
.box{display:inline-block;width:4.4mm;height:4.4mm;border:1.1pt solid #000;vertical-align:-.8mm;margin-right:1.6mm}
.line{display:block;border-bottom:.8pt solid #000;height:5mm}
table.ride{border-left:3pt double #000}table.ride th:first-child,table.ride td:first-child{padding-left:3mm}
.sign{display:grid;grid-template-columns:1fr 1fr 40mm;gap:9mm 7mm;margin-top:10mm;break-inside:avoid;font-size:9pt}
.sign div{border-top:.8pt solid #000;padding-top:1mm}
.notes{margin:2mm 0 0;padding:0 0 0 5mm;font-size:10pt}
@media screen{html{background:#e9e9e6}main{background:#fff;max-width:210mm;padding:14mm 12mm;margin:6mm auto;box-shadow:0 0 0 .5pt #bbb}
.page{border-top:6pt solid #e9e9e6;margin:10mm -12mm 0;padding:10mm 12mm 0}
.running{font-size:9pt;border-bottom:1.6pt solid #000;padding-bottom:2mm;margin-bottom:6mm;display:flex;justify-content:space-between;gap:6mm}
a:focus-visible{outline:2pt solid #004b87}}
@media screen and (max-width:640px){main{padding:5mm 4mm;margin:0}.page{margin:6mm -4mm 0;padding:6mm 4mm 0}.step{grid-template-columns:1fr}.no{margin-bottom:1mm}.beside{margin-top:2mm}.signal,.facts{grid-template-columns:1fr}.signal .word{border-right:0;border-bottom:1.8pt solid #000}.contents{columns:1}.block{overflow-x:auto}h1{font-size:24pt}}
@media print{.running{display:none}}
`;
