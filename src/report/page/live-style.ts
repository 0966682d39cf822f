/** The looks of the controls: beside the answer where there is room, below it where there is none; never on paper. */

/** px from which the controls stand beside the page. */
const BESIDE = '1180px';

export const LIVE_STYLE = `
#knobs{background:var(--card);border:1px solid var(--edge);border-top:5px solid var(--link);padding:.2rem .9rem .7rem;font-size:.92rem;z-index:2}
#knobs summary{font-weight:650;font-size:1.05rem;color:var(--ink);padding:.35rem 0;display:flex;justify-content:space-between;align-items:baseline;gap:.8rem}
#knobs summary::after{content:'';flex:none;margin-right:2px;width:.5rem;height:.5rem;border:solid var(--quiet);border-width:0 2px 2px 0;transform:rotate(45deg)}
#knobs details[open] summary::after{transform:rotate(-135deg)}
#knobs .state{font-weight:400;font-size:.82rem;color:var(--quiet);flex:1;text-align:right;min-height:1.3em}
.knob{display:grid;grid-template-columns:1fr auto;gap:0 .8rem;align-items:baseline;margin:.5rem 0 .7rem}
.knob label{min-width:0;overflow-wrap:anywhere;line-height:1.3}
.knob .now{font-variant-numeric:tabular-nums;white-space:nowrap}
.knob.turned .now,.knob.turned label{color:var(--link)}
.knob input,.knob .ends{grid-column:1/-1;width:100%}
.knob input{margin:.3rem 0 0;height:1.6rem;accent-color:var(--link);touch-action:pan-y}
.knob .ends{display:flex;justify-content:space-between;font-size:.76rem;color:var(--quiet);line-height:1.2}
.knob select{grid-column:1/-1;font:inherit;padding:.35rem .4rem;width:100%;margin-top:.2rem;background:var(--paper);border:1px solid var(--edge);border-radius:2px;color:inherit}
.acts{display:flex;flex-wrap:wrap;gap:.5rem;margin:.8rem 0 .2rem}
.acts button{font:inherit;font-size:.86rem;padding:.4rem .7rem;border:1px solid var(--ink);background:var(--paper);color:var(--ink);border-radius:2px;cursor:pointer}
.acts button:disabled{color:var(--quiet);border-color:var(--edge);cursor:default}
.lines{width:100%;font-family:ui-monospace,Menlo,Consolas,monospace;font-size:.8rem;margin-top:.5rem;border:1px solid var(--edge);background:var(--code)}
.was{margin:.1rem 0 .5rem;font-size:.92rem;color:var(--link);font-variant-numeric:tabular-nums}
.card .was{margin-top:-.2rem}
.notices{font-size:.82rem;color:var(--quiet)}
.notices pre{white-space:pre-wrap;overflow-wrap:anywhere}
output.turned{color:var(--link);text-decoration:underline dotted;text-underline-offset:.2em}
#settings{border-left:.35rem solid var(--link);padding:.35rem .9rem;margin:1rem 0;background:var(--turned);max-width:none}
.live .cards{columns:auto;display:grid;grid-template-columns:repeat(auto-fill,minmax(min(100%,15.5rem),1fr));gap:1rem;align-items:start}
.live .cards.of1{grid-template-columns:1fr}.live .cards:is(.of2,.of4){grid-template-columns:repeat(auto-fill,minmax(min(100%,20rem),1fr))}
.live .cards>*{margin:0}
[data-late]>.fold>:not(summary,.picture){opacity:.5}
[data-late] .picture:not([data-now]){opacity:.5}
.card[data-late],dl[data-late]{opacity:.5}
@media screen{.live .picture>[role=img],.live .card{contain:content}}
@media screen and (min-width:${BESIDE}){
.live{max-width:none;width:fit-content;padding-right:18.5rem;position:relative}
.live header,.live main,.live footer{max-width:58rem}
.live #knobs{position:fixed;top:1rem;left:calc(50% + 20.4rem);width:17rem;max-height:calc(100vh - 2rem);overflow:auto}
}
@media screen and (max-width:calc(${BESIDE} - 1px)){
.live{padding-bottom:60vh}
.live #knobs:has(input[type=range]:active){background:none;border-color:transparent;box-shadow:none;pointer-events:none}
.live #knobs:has(input[type=range]:active) :is(summary,.acts,.knob:not(:has(:active))){visibility:hidden}
.live .knob:has(input[type=range]:active){background:var(--card);box-shadow:0 0 0 .6rem var(--card),0 0 12px .7rem #0003}
.live #knobs:has(>details:not([open])){overflow:hidden}
.live #knobs{position:fixed;bottom:0;left:0;right:0;max-height:45vh;overflow:auto;border-width:3px 0 0;box-shadow:0 -6px 18px #0002;padding:.1rem clamp(12px,4vw,3rem) .5rem}
.live #knobs form{display:grid;grid-template-columns:repeat(auto-fill,minmax(15rem,1fr));gap:0 1.6rem;margin:0}
.live .knob{margin:.25rem 0}
.live .knob .ends{display:none}
.live .knob input{margin:0}
.live .knob select{grid-column:auto;width:auto;max-width:11rem;padding:.2rem .3rem;margin:0}
.live .acts{margin:.3rem 0 0}
.live .acts button{padding:.3rem .5rem;font-size:.8rem}
}
.here{position:absolute;width:0;border-left:3px solid var(--link);pointer-events:none}
@media print{
#knobs,.notices{display:none}
#settings{-webkit-print-color-adjust:exact;print-color-adjust:exact}
}
`;
