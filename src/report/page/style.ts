/** The looks of the report: a job sheet on a bench, by day and by night; on paper it is always day. */
import { COLOURS } from './colours.ts';

/** Everything below this width gets the slim drawings. */
const SLIM_BELOW = '799px';

export const STYLE = `
${COLOURS}
*{box-sizing:border-box}
html{font:16px/1.55 system-ui,"Segoe UI",Roboto,"Helvetica Neue",Arial,sans-serif;color:var(--ink);background:var(--desk);-webkit-text-size-adjust:100%}
body{margin:0 auto;max-width:60rem;background:var(--paper);min-height:100vh;border:solid var(--edge);border-width:0 1px}
header,main,footer,.contents{padding:0 clamp(12px,4vw,3rem)}
header{padding-top:1.5rem;padding-bottom:1rem;border-bottom:6px double var(--ink)}
.maker{margin:0;font-size:.85rem;color:var(--quiet);overflow-wrap:anywhere}
h1{margin:.2rem 0 0;font-size:clamp(1.6rem,1.2rem + 2vw,2.4rem);line-height:1.15;letter-spacing:-.01em;overflow-wrap:anywhere}
h2,h3,h4,h5,h6{line-height:1.25;margin:1.8em 0 .5em;overflow-wrap:anywhere}
h2{font-size:1.4rem;padding-top:.5rem;border-top:3px solid var(--ink);margin-top:2.6rem}
h3{font-size:1.2rem}h4{font-size:1.08rem}h5,h6{font-size:1rem}
p,ul,ol,dl,blockquote{margin:.6em 0;max-width:72ch}
a{color:var(--link);text-underline-offset:.15em}
:focus-visible{outline:3px solid var(--link);outline-offset:2px}
code,pre{font-family:ui-monospace,SFMono-Regular,Menlo,Consolas,"DejaVu Sans Mono",monospace;font-size:.86em}
code{overflow-wrap:anywhere}
pre{white-space:pre-wrap;overflow-wrap:anywhere;margin:.5em 0;padding:.6em .8em;background:var(--code);border-left:3px solid var(--edge);line-height:1.4}
pre code{font-size:1em}
blockquote{margin-left:0;padding-left:1em;border-left:3px solid var(--edge);color:var(--quiet)}
output.problem{color:var(--bad);font-weight:400;text-decoration:underline wavy}
.verdicts{padding-left:1.2rem}
.verdicts li{margin:.25rem 0}
.compared small,small.weightless{color:var(--quiet)}
.minds{border-left:.35rem solid var(--ink);padding:.2rem 1rem;margin:1rem 0}
.remarks{font-size:.94rem}.remarks ul{margin-top:.2rem}
.minds h3{margin:.4rem 0 .2rem}
output{font-weight:650;font-variant-numeric:tabular-nums}
output:not(.problem){white-space:nowrap}
b,strong{font-weight:650}
.absent{color:var(--quiet);font-style:italic}
.own{border-left:.35rem solid var(--link);padding:.1rem 1rem;margin:1rem 0;background:var(--card)}
.own h3{margin:.4rem 0 .2rem}
.cards{display:grid;grid-template-columns:repeat(auto-fill,minmax(min(15.5rem,100%),1fr));gap:1rem;margin:1rem 0 1.6rem}
.cards.of1{grid-template-columns:1fr}.cards:is(.of2,.of4){grid-template-columns:repeat(auto-fill,minmax(min(20rem,100%),1fr))}
.cards>*{break-inside:avoid;min-width:0}
.cards:has(>:nth-child(5))>:has(dt:nth-of-type(3)){grid-column:1/-1;columns:3 14rem;column-gap:1.4rem;padding-top:.8rem}
.cards:has(>:nth-child(5))>:has(dt:nth-of-type(3)) h3{margin-top:0}
.card :is(h3,.quick,dt){break-after:avoid}
.card{border:1px solid var(--edge);border-top:5px solid var(--ink);padding:.2rem 1rem .8rem;background:var(--card)}
.card h3{margin:.6rem 0 .2rem;font-size:1.05rem}
.card h3 a{color:inherit;text-decoration-color:var(--edge)}
.alarms{border:2px solid var(--alarm);border-left-width:.6rem;background:var(--bads);padding:.1rem 1rem;margin:1rem 0}
.alarms h3{margin:.4rem 0 .2rem;color:var(--bad)}
.card[data-fails]{border-color:var(--alarm);border-top-color:var(--alarm);background:var(--bads)}
.lines{font-size:.86rem;margin:.4rem 0;width:100%}
.lines th,.lines td{padding:.12rem .4rem .12rem 0}
.lines .over>*{color:var(--bad);font-weight:650}
.quick{margin:0 0 .5rem;line-height:1.2}
.quick b{font-size:2.3rem;font-weight:700;letter-spacing:-.02em;font-variant-numeric:tabular-nums;margin-right:.25rem}
.quick .holes{font-weight:600}
.quick span{display:block;color:var(--quiet);margin-top:.1rem}
.strip{display:flex;height:1.5rem;font-size:.78rem;line-height:1.5rem;overflow:hidden;border:1px solid var(--ink)}
.strip span{overflow:hidden;text-align:center;white-space:nowrap;min-width:0}
.strip span+span{border-left:1px solid var(--paper)}
.card p{margin:.5rem 0}
.card .said{font-weight:600}
.card .more{font-size:.94rem;line-height:1.45}
.within{position:relative;height:.8rem;margin:.5rem 0;border-bottom:2px solid var(--ink);border-left:2px solid var(--ink)}
.within i{position:absolute;top:.15rem;bottom:.15rem;background:var(--band)}
.within b{position:absolute;top:0;bottom:0;width:3px;margin-left:-1.5px;background:var(--ink)}
.card .ends{position:relative;height:1.1rem;margin:-.45rem 0 .3rem;font-size:.78rem;line-height:1.1rem;color:var(--quiet)}
.card .ends span{position:absolute;top:0}
.the-cars{border-left:.35rem solid var(--quiet);padding:.1rem 1rem;margin:1rem 0;font-size:.92rem}
.the-cars h3{margin:.3rem 0 .1rem;font-size:1.05rem}
.bars{display:grid;grid-template-columns:max-content 1fr max-content;gap:.15rem .5rem;align-items:center;font-size:.88rem;margin:.5rem 0;line-height:1.3}
.bars .rail{display:block;height:.75rem;background:var(--hair)}
.bars i{display:block;height:100%;background:var(--bar)}
.bars .best{background:var(--link)}
.bars .out{background:repeating-linear-gradient(45deg,var(--bad) 0 4px,var(--pale) 4px 8px)}
.card dl{margin:.6rem 0 0;font-size:.94rem;line-height:1.45}
.card dt{font-weight:650;margin-top:.6rem}
.card dd{margin:0;break-inside:avoid}
.pointer{font-size:.94rem;color:var(--quiet)}
.picture{margin:1.4rem 0;position:relative}
.saves{margin:.3rem 0 0;display:flex;gap:.4rem}
.saves button{font:inherit;font-size:.74rem;padding:.2rem .5rem;min-height:24px;border:1px solid var(--edge);border-radius:3px;background:none;color:var(--quiet);cursor:pointer}
.saves button:hover{color:var(--ink);border-color:var(--quiet)}
.cursor{position:absolute;width:0;border-left:1px dashed var(--link);pointer-events:none}
.readout{position:absolute;left:0;right:0;z-index:1;padding:.15rem .5rem;font-size:.82rem;line-height:1.35;background:var(--ink);color:var(--paper);font-variant-numeric:tabular-nums;pointer-events:none}
.picture svg{display:block;max-width:100%;height:auto}
.wide{display:block}.slim{display:none}
@media screen and (max-width:${SLIM_BELOW}){.wide{display:none}.slim{display:block}}
.fold>summary{font-size:inherit;color:inherit;padding:0;list-style:none}
.fold>summary::-webkit-details-marker{display:none}
.fold>summary>:is(h2,h3,h4,h5,h6){position:relative;padding-right:1.6rem}
.fold>summary>:is(h2,h3,h4,h5,h6)::after{content:'';position:absolute;right:.3rem;bottom:.45em;width:.5rem;height:.5rem;border:solid var(--quiet);border-width:0 2px 2px 0;transform:rotate(45deg)}
.fold[open]>summary>:is(h2,h3,h4,h5,h6)::after{transform:rotate(-135deg)}
.fold{margin:0}
.contents{font-size:.88rem;line-height:1.35}
.contents ol{list-style:none;margin:0;padding:0}
.contents a{display:block;padding:.16rem 0;text-decoration:none;color:var(--words);overflow-wrap:anywhere}
.contents a:hover{text-decoration:underline}
.contents>details{margin:.8rem 0}
.contents>details>summary{font-size:.95rem;font-weight:650;color:var(--ink)}
.contents .of-part>a{font-weight:650;color:var(--ink);margin-top:.35rem}
.contents .of-cell{padding-left:.9rem}
.contents small{color:var(--quiet)}
:target{scroll-margin-top:1rem}
@media screen and (min-width:1240px){
body:has(.contents):not(.live){margin-left:max(17.5rem,calc(50vw - 30rem + 8rem));margin-right:auto}
body:not(.live) .contents{position:fixed;top:0;bottom:0;left:max(0px,calc(50vw - 30rem + 8rem - 17.5rem));width:17rem;overflow-y:auto;padding:1rem 1rem 2rem}
body:not(.live) .contents>details>summary{list-style:none;pointer-events:none}
body:not(.live) .contents>details>summary::-webkit-details-marker{display:none}
body:not(.live) .contents>details::details-content{content-visibility:visible;display:block;block-size:auto}
}
figcaption{font-size:.92rem;color:var(--words);max-width:76ch;margin-top:.4rem}
details{margin:.5rem 0}
summary{cursor:pointer;font-size:.9rem;color:var(--quiet);padding:.15rem 0}
table{border-collapse:collapse;font-size:.9rem;line-height:1.35;font-variant-numeric:tabular-nums;margin:.8rem 0}
caption{text-align:left;font-weight:650;padding:0 0 .3rem}
th,td{text-align:left;vertical-align:top;padding:.28rem .7rem .28rem 0;border-bottom:1px solid var(--hair);font-weight:400}
thead th{color:var(--quiet);border-bottom:1.5px solid var(--quiet);vertical-align:bottom}
.figures td,.figures thead th+th,.figures thead td+th{text-align:right}
.figures td{white-space:nowrap}
th:last-child,td:last-child{padding-right:0}
.scroll{overflow-x:auto;max-width:100%;background:linear-gradient(var(--paper),var(--paper)) left/1.2rem 100% no-repeat local,linear-gradient(var(--paper),var(--paper)) right/1.2rem 100% no-repeat local,linear-gradient(to right,#0003,#0000) left/.6rem 100% no-repeat scroll,linear-gradient(to left,#0003,#0000) right/.6rem 100% no-repeat scroll}
.scroll td{white-space:normal}
.times th[scope=row]{white-space:nowrap}
.times th,.times td{padding-right:.35rem}
.times{font-size:.86rem}
.note{font-size:.9rem;color:var(--quiet)}
.unseen{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
.scroll th[scope=row]{min-width:8.5rem}
.scroll .times th[scope=row]{min-width:0}
.outputs td:nth-child(3){text-align:left;white-space:normal;color:var(--quiet);padding-left:.4rem}
.outputs thead th:nth-child(3){text-align:left;padding-left:.4rem}
.items td:nth-child(2),.items thead th:nth-child(2){text-align:left}
.tests td:nth-child(3),.tests td:nth-child(4),.tests thead th:nth-child(n+3){text-align:left}
.tests td:nth-child(3){white-space:normal;min-width:8rem}
.tests .group th{font-weight:650;padding-top:.8rem;border-bottom-color:var(--quiet)}
.over,.duty .fail td:last-child{color:var(--bad)}
.duty .fail td:last-child,.duty .look td:last-child{font-weight:650}
.duty small{display:block;color:var(--quiet);font-size:.86em;max-width:46ch}
.duty .group th{font-weight:650;padding-top:.8rem;border-bottom-color:var(--quiet)}
.duty tfoot td{text-align:left;white-space:normal;color:var(--quiet);border:0}
.loads tbody+tbody tr:first-child>*{border-top:1.5px solid var(--quiet)}
.pair{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,22rem),1fr));gap:0 2.5rem;align-items:start}
.pair table{width:100%}
.ledger td:nth-child(2),.ledger thead th:nth-child(2){text-align:left}
.ledger tfoot th,.ledger tfoot td{font-weight:650}
.ledger tbody+tbody tr:last-child>*{border-bottom:1.5px solid var(--quiet)}
.ledger tfoot tr:last-child td{font-weight:400;color:var(--quiet);text-align:left;border:0;white-space:normal}
@media screen and (max-width:${SLIM_BELOW}){.duty th,.duty td{padding-right:.4rem}.duty td{white-space:normal}.scroll .duty th[scope=row]{min-width:0}}
@media screen and (max-width:${SLIM_BELOW}){.times td,.others td,.outputs td{white-space:normal}.scroll table{font-size:.78rem}.scroll table:has(tr>:nth-child(5)){font-size:.7rem;letter-spacing:-.01em}.scroll :is(th,td){white-space:normal;padding-right:.35rem}.scroll th,.outputs :is(th,td){hyphens:auto;overflow-wrap:break-word}.outputs code{overflow-wrap:anywhere}.outputs{font-size:.78rem}.outputs :is(th,td){padding-right:.35rem}.scroll th[scope=row],.scroll .times th[scope=row],.scroll .tests td:nth-child(3){min-width:3.7rem;white-space:normal}.scroll table:has(tr>:nth-child(8)){font-size:.68rem;letter-spacing:-.03em}.scroll table:has(tr>:nth-child(8)) :is(th,td){padding-right:.15rem}.scroll table:has(tr>:nth-child(8)) th[scope=row]{min-width:2.2rem}.besides,.besides>*{display:block;width:100%}.besides tr{display:grid;grid-template-columns:repeat(auto-fit,minmax(6.6rem,1fr))}.besides :is(th[scope=row],thead td){grid-column:1/-1;border:0;padding-bottom:0}.besides thead td{display:none}}
.inputs{width:100%;table-layout:fixed}
.inputs th,.inputs td{overflow-wrap:anywhere}
.inputs th:first-child{width:36%}.inputs th:nth-child(2){width:26%}
@media screen and (max-width:${SLIM_BELOW}){.inputs th:first-child{width:33%}.inputs th:nth-child(2){width:36%}}
.inputs .group th{font-weight:650;padding-top:.9rem;border-bottom-color:var(--quiet)}
.notes{font-size:.88rem;color:var(--words);max-width:80ch;overflow-wrap:anywhere}
.cell{margin:1.4rem 0}
.kind{font-size:.72em;font-weight:650;letter-spacing:.06em;text-transform:uppercase;color:var(--paper);background:var(--tag);padding:.15em .5em;margin-right:.35em;vertical-align:.12em}
.source summary{overflow-wrap:anywhere}
.warning{border-left:5px solid var(--mind);background:var(--minds);padding:.5rem .8rem}
.opinion{font-size:.9rem;color:var(--quiet)}
.problem,.troubles{border-left:5px solid var(--alarm);background:var(--bads);padding:.4rem .9rem;margin:.8rem 0}
.troubles h2{border:0;margin:.3rem 0;padding:0;color:var(--bad)}
.troubles{margin-top:1.4rem}
.problem pre{background:var(--paper);border-color:var(--alarm)}
.place{font-size:.86rem;color:var(--quiet);overflow-wrap:anywhere}
.checks{list-style:none;padding:0}
.checks li{margin:.35rem 0;padding-left:.7rem;border-left:5px solid var(--good);overflow-wrap:anywhere}
.checks .unsure{border-color:var(--quiet)}
.checks .fails{border-color:var(--alarm)}
.checks .fails b{color:var(--bad)}.checks .holds b{color:var(--good)}
.checks span{color:var(--quiet);display:block}
.cautions dl{max-width:76ch}
.cautions dt{font-weight:650;margin-top:.8rem}
.cautions dd{margin:0}
.defers{color:var(--quiet);display:block;font-size:.94em}
footer{border-top:1px solid var(--hair);margin-top:2.5rem;padding-top:.6rem;padding-bottom:2rem;font-size:.85rem;color:var(--quiet)}
@page{margin:14mm 13mm}
@page sheet{margin:7mm 10mm}
.brief{page:sheet}
footer.signed p{grid-column:1/-1;margin:0 0 1.6rem;max-width:none;color:var(--ink)}
.maker small{font-size:.8em}
footer.signed{display:grid;grid-template-columns:1fr 2fr 3fr;gap:1.5rem;border:0;margin-top:3.2rem}
.signed span{border-top:1px solid var(--ink);padding-top:.2rem}
.brief h2{font-size:1.05rem;border-top-width:1px;margin:1.1rem 0 .3rem;padding-top:.3rem}
.brief main p,.brief .minds ul{max-width:none;margin:.3rem 0}
.brief .checks{columns:3 14rem;max-width:none;margin:.3rem 0;font-size:.9em}
.brief .checks li{margin:0 0 .3rem;break-inside:avoid}
.brief .maker{max-width:none}
.brief .card dt,.brief .card dd{display:inline}
.brief .card dt::after{content:' '}
.brief .card dd::after{content:'';display:block;height:.35em}
.brief .beware p{font-size:.85rem;color:var(--words)}
@media print{
.contents,.saves,.cursor,.readout{display:none}
html{font-size:10pt;line-height:1.4;background:none}
body{max-width:none;border:0;min-height:0}
header,main,footer{padding-left:0;padding-right:0}
header{padding-top:0}
a{color:inherit;text-decoration:none}
h2,h3,h4,h5,h6,caption,thead{break-after:avoid}
figure,.card,tr,.problem,.warning,pre,.checks li,dd{break-inside:avoid}
.pair{grid-template-columns:1fr 1fr;gap:0 1.5rem}
.ledger,.tests{break-inside:avoid}
tfoot{display:table-row-group}
.cards,.cards:is(.of1,.of2,.of4){grid-template-columns:repeat(3,1fr)}
.answer .cards>:has(dt:nth-of-type(3)){columns:3;column-gap:1.2rem;grid-column:1/-1}
.answer .cards dl{margin:0}
.answer .cards dd{break-inside:auto}
.card{font-size:8pt}.quick b{font-size:15pt}
.numbers,.every{display:none}
.picture svg{max-width:88%}
.picture{margin:.9rem 0}
.cell{margin:.8rem 0}
.cell pre{font-size:8pt;margin:.3rem 0}
.columns{columns:2;column-gap:1.4rem}
.columns table{width:100%}
.inputs th:first-child{width:34%}.inputs th:nth-child(2){width:36%}
.columns :is(.pictures,.pair){display:block}
.pictures{display:grid;grid-template-columns:1fr 1fr;gap:.2rem 1.4rem}
.pictures .wide{display:none}.pictures .slim{display:block}
.pictures .picture{margin:.4rem 0;min-width:0}
.pictures svg{max-width:90%}
.pictures>:last-child:nth-child(odd){grid-column:1/-1;display:grid;grid-template-columns:subgrid;align-items:center}
figcaption{font-size:8pt;line-height:1.35}
table,.times{font-size:7.6pt;line-height:1.25}
table :is(th,td){padding-top:.1rem;padding-bottom:.1rem}
.notes,.note{font-size:7.6pt;line-height:1.35}
.source{break-inside:avoid}
summary{break-after:avoid}
.scroll{overflow:visible;background:none}
.scroll table:has(tr>:nth-child(5)){font-size:7.6pt}.scroll :is(th,td){padding-right:.5em}.scroll th[scope=row]{min-width:0}
pre{white-space:pre-wrap}
.fold>summary>:is(h2,h3,h4,h5,h6)::after{content:none}
summary{list-style:none;font-weight:650;color:var(--ink)}
summary::-webkit-details-marker{display:none}
html:has(.brief){font-size:7.1pt;line-height:1.35}
.brief .card dl{line-height:1.3}
.brief .minds,.brief .own,.brief .alarms,.brief .the-cars{margin:.35rem 0}
.brief ul{padding-left:1.3rem}
.brief .checks{padding-left:0}
.brief :is(.minds,.the-cars){display:flex;gap:.9rem}
.brief .the-cars{font-size:7.5pt;line-height:1.3;padding:.05rem .8rem}
.brief :is(.minds,.the-cars) h3{flex:none;margin:.2rem 0 0;font-size:8pt}
.brief :is(.minds,.the-cars) ul{margin:.1rem 0}
.brief .cards:has(>:nth-child(7)){zoom:.92}
.brief .cards:has(>:nth-child(10)){zoom:.88}
.brief .key{font-size:7.1pt;margin:.1rem 0}
.brief .ends{margin:-.3rem 0 .1rem;font-size:6pt;height:.9rem}
.brief .within{height:.65rem;margin:.3rem 0 .35rem}
.brief .card p{margin:.25rem 0}
.brief .quick{margin:0 0 .25rem}
.brief :is(.alarms,.the-cars) ul{max-width:none;margin:.15rem 0}
.brief .alarms h3{margin:.1rem 0}
.brief .lines{font-size:6.5pt;line-height:1.25}
.brief .own ul,.brief .own p{max-width:none;margin:.15rem 0}
.brief .own h3{margin:.2rem 0 .1rem}
.brief .own,.brief .minds{padding:.1rem .8rem}
.brief h1{font-size:15pt}
.brief header{padding-bottom:.4rem;border-bottom-width:3px}
.brief .card{font-size:6.9pt;padding:.1rem .7rem .4rem}
.brief .cards{display:block;columns:3 5.4cm;column-gap:.6rem;margin:.5rem 0}
.brief .cards>*{margin-bottom:.6rem;columns:auto}
.brief .quick b{font-size:14pt}
.brief h2{margin:.45rem 0 .15rem;padding-top:.15rem}
.brief .signed{margin-top:.5rem;padding:0;break-inside:avoid}
.brief .checks li{margin:0 0 .1rem}
.brief .beware p{font-size:7.5pt;line-height:1.22}
.brief .signed{font-size:7.6pt}
.brief .signed p{margin:0 0 .9rem}
.brief .card .more{line-height:1.3}
.brief .card h3{margin:.2rem 0 .1rem}
.brief .quick b+span{display:inline}
.brief .the-cars li{display:inline}
.brief .the-cars li+li::before{content:'· '}
.brief .the-cars ul{padding:0}
.brief .quick{line-height:1.1}
.brief .beware{line-height:1.25}
details::details-content{content-visibility:visible;display:block;block-size:auto}
.strip,.strip span,.within,.within i,.within b,.bars .rail,.bars i,.kind,.warning,.problem,.troubles,.alarms,.card{-webkit-print-color-adjust:exact;print-color-adjust:exact}
}
`.trim();
