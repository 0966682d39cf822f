/** The looks of the report: a job sheet on a bench. Light only, because it is made to be printed. */
import { HAIR, INK, PAPER, QUIET } from '../../plots/kit/palette.ts';

/** Everything below this width gets the slim drawings. */
const SLIM_BELOW = '799px';

export const STYLE = `
*{box-sizing:border-box}
html{font:16px/1.55 system-ui,"Segoe UI",Roboto,"Helvetica Neue",Arial,sans-serif;color:${INK};background:#eceae5;-webkit-text-size-adjust:100%}
body{margin:0 auto;max-width:60rem;background:${PAPER};min-height:100vh;border:solid #d5d1c8;border-width:0 1px}
header,main,footer{padding:0 clamp(12px,4vw,3rem)}
header{padding-top:1.5rem;padding-bottom:1rem;border-bottom:6px double ${INK}}
.maker{margin:0;font-size:.85rem;color:${QUIET};overflow-wrap:anywhere}
h1{margin:.2rem 0 0;font-size:clamp(1.6rem,1.2rem + 2vw,2.4rem);line-height:1.15;letter-spacing:-.01em;overflow-wrap:anywhere}
h2,h3,h4,h5,h6{line-height:1.25;margin:1.8em 0 .5em;overflow-wrap:anywhere}
h2{font-size:1.4rem;padding-top:.5rem;border-top:3px solid ${INK};margin-top:2.6rem}
h3{font-size:1.2rem}h4{font-size:1.08rem}h5,h6{font-size:1rem}
p,ul,ol,dl,blockquote{margin:.6em 0;max-width:72ch}
a{color:#0b5a86;text-underline-offset:.15em}
:focus-visible{outline:3px solid #0b5a86;outline-offset:2px}
code,pre{font-family:ui-monospace,SFMono-Regular,Menlo,Consolas,"DejaVu Sans Mono",monospace;font-size:.86em}
code{overflow-wrap:anywhere}
pre{overflow-x:auto;margin:.5em 0;padding:.6em .8em;background:#f5f4f0;border-left:3px solid #b9b4a8;line-height:1.4}
pre code{font-size:1em;overflow-wrap:normal}
blockquote{margin-left:0;padding-left:1em;border-left:3px solid #b9b4a8;color:${QUIET}}
output.problem{color:#a3150d;font-weight:400;text-decoration:underline wavy}
.verdicts{padding-left:1.2rem}
.verdicts li{margin:.25rem 0}
.compared small,small.weightless{color:${QUIET}}
.minds{border-left:.35rem solid #1c2126;padding:.2rem 1rem;margin:1rem 0}
.minds h3{margin:.4rem 0 .2rem}
output{font-weight:650;font-variant-numeric:tabular-nums}
b,strong{font-weight:650}
.absent{color:${QUIET};font-style:italic}
.own{border-left:.35rem solid #0b5a86;padding:.1rem 1rem;margin:1rem 0;background:#fcfbf9}
.own h3{margin:.4rem 0 .2rem}
.cards{columns:3 15.5rem;column-gap:1rem;margin:1rem 0 1.6rem}
.cards.of1{columns:1}.cards.of2,.cards.of4{columns:2 20rem}
.cards>*{break-inside:avoid;margin:0 0 1rem}
.card{border:1px solid #c9c4b8;border-top:5px solid ${INK};padding:.2rem 1rem .8rem;background:#fcfbf9}
.card h3{margin:.6rem 0 .2rem;font-size:1.05rem}
.card h3 a{color:inherit;text-decoration-color:#b9b4a8}
.quick{margin:0 0 .5rem;line-height:1.2}
.quick b{font-size:2.3rem;font-weight:700;letter-spacing:-.02em;font-variant-numeric:tabular-nums;margin-right:.25rem}
.quick .holes{font-weight:600}
.quick span{display:block;color:${QUIET};margin-top:.1rem}
.strip{display:flex;height:1.5rem;font-size:.78rem;line-height:1.5rem;overflow:hidden;border:1px solid ${INK}}
.strip span{overflow:hidden;text-align:center;white-space:nowrap;min-width:0}
.strip span+span{border-left:1px solid ${PAPER}}
.card p{margin:.5rem 0}
.card .said{font-weight:600}
.card .more{font-size:.94rem;line-height:1.45}
.within{position:relative;height:.8rem;margin:.5rem 0;border-bottom:2px solid ${INK};border-left:2px solid ${INK}}
.within i{position:absolute;top:.15rem;bottom:.15rem;background:#9db8c7}
.within b{position:absolute;top:0;bottom:0;width:3px;margin-left:-1.5px;background:${INK}}
.bars{display:grid;grid-template-columns:max-content 1fr max-content;gap:.15rem .5rem;align-items:center;font-size:.88rem;margin:.5rem 0;line-height:1.3}
.bars .rail{display:block;height:.75rem;background:${HAIR}}
.bars i{display:block;height:100%;background:#6f7b83}
.bars .best{background:#0b5a86}
.bars .out{background:repeating-linear-gradient(45deg,#8c1d16 0 4px,#e3b9b5 4px 8px)}
.card dl{margin:.6rem 0 0;font-size:.94rem;line-height:1.45}
.card dt{font-weight:650;margin-top:.6rem}
.card dd{margin:0}
.pointer{font-size:.94rem;color:${QUIET}}
.picture{margin:1.4rem 0}
.picture svg{display:block;max-width:100%;height:auto}
.wide{display:block}.slim{display:none}
@media screen and (max-width:${SLIM_BELOW}){.wide{display:none}.slim{display:block}}
figcaption{font-size:.92rem;color:#3b454c;max-width:76ch;margin-top:.4rem}
details{margin:.5rem 0}
summary{cursor:pointer;font-size:.9rem;color:${QUIET};padding:.15rem 0}
table{border-collapse:collapse;font-size:.9rem;line-height:1.35;font-variant-numeric:tabular-nums;margin:.8rem 0}
caption{text-align:left;font-weight:650;padding:0 0 .3rem}
th,td{text-align:left;vertical-align:top;padding:.28rem .7rem .28rem 0;border-bottom:1px solid ${HAIR};font-weight:400}
thead th{color:${QUIET};border-bottom:1.5px solid ${QUIET};vertical-align:bottom}
.figures td,.figures thead th+th,.figures thead td+th{text-align:right}
.figures td{white-space:nowrap}
th:last-child,td:last-child{padding-right:0}
.scroll{overflow-x:auto;max-width:100%;background:linear-gradient(${PAPER},${PAPER}) left/1.2rem 100% no-repeat local,linear-gradient(${PAPER},${PAPER}) right/1.2rem 100% no-repeat local,linear-gradient(to right,#0003,#0000) left/.6rem 100% no-repeat scroll,linear-gradient(to left,#0003,#0000) right/.6rem 100% no-repeat scroll}
.times th[scope=row]{white-space:nowrap}
.note{font-size:.9rem;color:${QUIET}}
.unseen{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
.scroll th[scope=row]{min-width:8.5rem}
.scroll .times th[scope=row]{min-width:0}
.outputs td:nth-child(3){text-align:left;white-space:normal;color:${QUIET};padding-left:.4rem}
.outputs thead th:nth-child(3){text-align:left;padding-left:.4rem}
.items td:nth-child(2),.items thead th:nth-child(2){text-align:left}
.tests td:nth-child(3),.tests td:nth-child(4),.tests thead th:nth-child(n+3){text-align:left}
.tests td:nth-child(3){white-space:normal;min-width:8rem}
.tests .group th{font-weight:650;padding-top:.8rem;border-bottom-color:${QUIET}}
.over,.duty .fail td:last-child{color:#8c1d16}
.duty .fail td:last-child,.duty .look td:last-child{font-weight:650}
.duty small{display:block;color:${QUIET};font-size:.86em;max-width:46ch}
.duty .group th{font-weight:650;padding-top:.8rem;border-bottom-color:${QUIET}}
.duty tfoot td{text-align:left;white-space:normal;color:${QUIET};border:0}
.loads tbody+tbody tr:first-child>*{border-top:1.5px solid ${QUIET}}
.pair{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,22rem),1fr));gap:0 2.5rem;align-items:start}
.pair table{width:100%}
.ledger td:nth-child(2),.ledger thead th:nth-child(2){text-align:left}
.ledger tfoot th,.ledger tfoot td{font-weight:650}
.ledger tbody+tbody tr:last-child>*{border-bottom:1.5px solid ${QUIET}}
.ledger tfoot tr:last-child td{font-weight:400;color:${QUIET};text-align:left;border:0;white-space:normal}
@media screen and (max-width:${SLIM_BELOW}){.duty th,.duty td{padding-right:.4rem}.duty td{white-space:normal}.scroll .duty th[scope=row]{min-width:0}}
@media screen and (max-width:${SLIM_BELOW}){.times td,.others td,.outputs td{white-space:normal}}
.inputs{width:100%;table-layout:fixed}
.inputs th,.inputs td{overflow-wrap:anywhere}
.inputs th:first-child{width:36%}.inputs th:nth-child(2){width:26%}
.inputs .group th{font-weight:650;padding-top:.9rem;border-bottom-color:${QUIET}}
.notes{font-size:.88rem;color:#3b454c;max-width:80ch;overflow-wrap:anywhere}
.cell{margin:1.4rem 0}
.kind{font-size:.72em;font-weight:650;letter-spacing:.06em;text-transform:uppercase;color:${PAPER};background:#4a545b;padding:.15em .5em;margin-right:.35em;vertical-align:.12em}
.source summary{overflow-wrap:anywhere}
.warning{border-left:5px solid #b98a00;background:#fdf6e0;padding:.5rem .8rem}
.opinion{font-size:.9rem;color:${QUIET}}
.problem,.troubles{border-left:5px solid #b3261e;background:#fdf1ef;padding:.4rem .9rem;margin:.8rem 0}
.troubles h2{border:0;margin:.3rem 0;padding:0;color:#8c1d16}
.troubles{margin-top:1.4rem}
.problem pre{background:${PAPER};border-color:#b3261e}
.place{font-size:.86rem;color:${QUIET};overflow-wrap:anywhere}
.checks{list-style:none;padding:0}
.checks li{margin:.35rem 0;padding-left:.7rem;border-left:5px solid #2e7d4f;overflow-wrap:anywhere}
.checks .fails{border-color:#b3261e}
.checks .fails b{color:#8c1d16}.checks .holds b{color:#1f5e3a}
.checks span{color:${QUIET};display:block}
.cautions dl{max-width:76ch}
.cautions dt{font-weight:650;margin-top:.8rem}
.cautions dd{margin:0}
.defers{color:${QUIET};display:block;font-size:.94em}
footer{border-top:1px solid ${HAIR};margin-top:2.5rem;padding-top:.6rem;padding-bottom:2rem;font-size:.85rem;color:${QUIET}}
@page{margin:14mm 13mm}
@page sheet{margin:8mm 10mm}
.brief{page:sheet}
footer.signed{display:grid;grid-template-columns:1fr 2fr 3fr;gap:1.5rem;border:0;margin-top:3.2rem}
.signed span{border-top:1px solid ${INK};padding-top:.2rem}
.brief h2{font-size:1.05rem;border-top-width:1px;margin:1.1rem 0 .3rem;padding-top:.3rem}
.brief main p,.brief .minds ul{max-width:none;margin:.3rem 0}
.brief .checks{columns:3 14rem;max-width:none;margin:.3rem 0;font-size:.9em}
.brief .checks li{margin:0 0 .3rem;break-inside:avoid}
.brief .maker{max-width:none}
.brief .card dt,.brief .card dd{display:inline}
.brief .card dt::after{content:' '}
.brief .card dd::after{content:'';display:block;height:.35em}
.brief .beware p{font-size:.85rem;color:#3b454c}
@media print{
html{font-size:10.5pt;background:none}
body{max-width:none;border:0;min-height:0}
header,main,footer{padding-left:0;padding-right:0}
header{padding-top:0}
a{color:inherit;text-decoration:none}
h2,h3,h4,h5,h6,caption,thead{break-after:avoid}
figure,.card,tr,.problem,.warning,pre,.checks li,dd{break-inside:avoid}
dt{break-after:avoid}
.pair{grid-template-columns:1fr 1fr;gap:0 1.5rem}
.pair table,.ledger,.tests{break-inside:avoid}
tfoot{display:table-row-group}
.cards{columns:3 5.4cm}
.card{font-size:9pt}.quick b{font-size:17pt}
.numbers,.every{display:none}
.picture svg{max-width:88%}
.source{break-inside:avoid}
summary{break-after:avoid}
.scroll{overflow:visible;background:none}
pre{white-space:pre-wrap}
summary{list-style:none;font-weight:650;color:${INK}}
summary::-webkit-details-marker{display:none}
html:has(.brief){font-size:7.1pt;line-height:1.35}
.brief .card dl{line-height:1.3}
.brief .minds,.brief .own{margin:.4rem 0}
.brief .own ul,.brief .own p{max-width:none;margin:.15rem 0}
.brief .own h3{margin:.2rem 0 .1rem}
.brief .own,.brief .minds{padding:.1rem .8rem}
.brief h1{font-size:15pt}
.brief header{padding-bottom:.4rem;border-bottom-width:3px}
.brief .card{font-size:6.9pt;padding:.1rem .7rem .4rem}
.brief .cards{column-gap:.6rem;margin:.5rem 0}
.brief .cards>*{margin-bottom:.6rem}
.brief .quick b{font-size:14pt}
.brief h2{margin:.45rem 0 .15rem;padding-top:.15rem}
.brief .signed{margin-top:1.1rem;padding:0;break-inside:avoid}
.answer{break-after:page}
details::details-content{content-visibility:visible;display:block;block-size:auto}
.strip,.strip span,.within,.within i,.within b,.bars .rail,.bars i,.kind,.warning,.problem,.troubles,.card{-webkit-print-color-adjust:exact;print-color-adjust:exact}
}
`.trim();
