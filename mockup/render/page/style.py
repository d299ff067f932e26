"""How the page looks: one style for a phone, a desk, and paper at true scale."""

from __future__ import annotations

from mockup.render.page.typeface import FAMILY

_STYLE = """\
:root{color-scheme:light;--ink:#1c1c1e;--soft:#55585e;--hair:#dcdad4;--ground:#f6f4ef;
--card:#fff;--good:#1d6b43;--care:#7a5200;--alarm:#8f1d21;--ring:#1a4fa3}
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%;text-size-adjust:100%}
body{margin:0;background:var(--ground);color:var(--ink);overflow-wrap:anywhere;
font:1.0625rem/1.5 FAMILY,system-ui,sans-serif}
h1,h2,p,ul,dl,figure,fieldset,table{margin:0;padding:0}
a{color:inherit}
:focus-visible{outline:3px solid var(--ring);outline-offset:2px}
.skip{position:absolute;left:-99rem;padding:.6rem 1rem;background:var(--card);z-index:2}
.skip:focus{left:.5rem;top:.5rem}
header,main,footer{max-width:82rem;margin:0 auto;padding:0 clamp(1rem,3.5vw,2.5rem)}
header{padding-top:clamp(1.25rem,4vw,3rem);padding-bottom:1.25rem}
.kind{color:var(--soft);letter-spacing:.02em}
h1{font-size:clamp(1.75rem,1.2rem + 2.6vw,3rem);line-height:1.1;letter-spacing:-.01em;
text-wrap:balance}
.for{font-size:1.25rem;margin-top:.35rem}
h2{font-size:1.1875rem;line-height:1.25;margin-bottom:.6rem}
.facts{display:flex;flex-wrap:wrap;gap:.5rem 2.25rem;margin-top:1.1rem}
dt{color:var(--soft);font-size:.875rem;line-height:1.3}
dd{margin:0}
.code{font-weight:700}
.banner{background:var(--alarm);color:#fff;padding:.75rem 1rem;border-radius:.4rem;
margin-top:1.1rem}
.seen{border-left:4px solid var(--soft);padding-left:.8rem;margin-top:1.1rem}
main{display:grid;gap:1.75rem;grid-template-columns:minmax(0,1fr)}
section{min-width:0}
.card{background:var(--card);border:1px solid var(--hair);border-radius:.6rem;
padding:clamp(.75rem,2vw,1.25rem)}
.words section+section{border-top:1px solid var(--hair);padding-top:1.4rem;margin-top:1.4rem}
.switches{display:flex;flex-wrap:wrap;gap:.75rem 2rem;margin-bottom:.9rem}
fieldset{border:0;min-width:0;display:flex;flex-wrap:wrap;gap:.4rem;align-items:center}
legend{float:left;color:var(--soft);font-size:.875rem;padding:0 .35rem 0 0}
fieldset label{display:inline-flex;align-items:center;gap:.45rem;min-height:2.5rem;
padding:.3rem .8rem .3rem .6rem;border:1px solid #8b8d92;border-radius:2rem;cursor:pointer;
max-width:100%}
fieldset label:has(:checked){border-color:var(--ink);box-shadow:inset 0 0 0 1px var(--ink)}
fieldset label:has(:focus-visible){outline:3px solid var(--ring);outline-offset:2px}
input{width:1.1rem;height:1.1rem;margin:0;accent-color:var(--ink);flex:none}
label:has(:focus-visible) input{outline:0}
.dots{display:inline-flex;flex:none}
.dots svg{width:1rem;height:1rem;display:block;margin-left:-.3rem}
.dots svg:first-child{margin-left:0}
.pane{overflow:auto;max-height:min(86vh,64rem);overscroll-behavior:auto}
.pane svg{display:block;width:100%;height:auto;max-height:min(82vh,60rem);margin:0 auto}
body:has(#zoom-2:checked) .pane svg{width:200%;max-height:none}
body:has(#zoom-4:checked) .pane svg{width:400%;max-height:none}
body:not(:has(#dimensions:checked)) .dimensions{visibility:hidden}
figcaption{color:var(--soft);font-size:.9375rem;margin-top:.6rem}
.bar{display:none}
table{border-collapse:collapse;width:100%;max-width:36rem}
caption{text-align:left;padding:0;margin:0}
th,td{text-align:left;overflow-wrap:normal;
padding:.5rem .6rem .5rem 0;border-top:1px solid var(--hair);
vertical-align:middle;font-weight:400}
thead th{border:0;color:var(--soft);font-size:.875rem;padding-top:0;padding-bottom:.25rem}
tbody th{font-weight:700;width:1%;white-space:nowrap}
thead th{vertical-align:bottom}
td:last-child,thead th:last-child{text-align:right;padding-right:0;white-space:nowrap}
.sample{width:1%;white-space:nowrap}
.sample svg{vertical-align:middle;width:2.4rem;height:2.4rem}
.sample svg+svg{width:2.1rem;height:1.5rem;margin-left:.5rem}
.name{overflow-wrap:anywhere}
.words{container-type:inline-size}
@container(max-width:26rem){
thead th:last-child{width:4.75rem;white-space:normal;text-wrap:balance}
.sample svg,.sample svg+svg{display:block;margin:0 auto}
.sample svg+svg{height:.9rem;margin-top:.3rem}
}
td small{display:block;color:var(--soft);font-size:.9375rem;line-height:1.3}
ul{list-style:none}
.plain li{padding-left:1.15rem;text-indent:-1.15rem}
.plain li::before{content:"\\2013";display:inline-block;width:1.15rem;text-indent:0;
color:var(--soft)}
.plain li+li{margin-top:.3rem}
.plain+p{margin-top:.75rem}p+p[dir]{margin-top:.35rem}
.cautions{font-size:1rem}
.checked li{display:flex;gap:.6rem;align-items:baseline}
.checked li+li{margin-top:.2rem}
.checked svg{width:.95rem;height:.95rem;flex:none;transform:translateY(.1rem)}
.holds{color:var(--good)}.look{color:var(--care)}.fails{color:var(--alarm)}
.checked span{color:var(--ink)}
.reply{display:inline-block;background:var(--ink);color:#fff;text-decoration:none;font-weight:700;
padding:.8rem 1.3rem;border-radius:.5rem;margin:.8rem 0 .6rem}
.reply:hover{background:#3a3a3d}
.sentence{font-weight:700}
.note{color:var(--soft);font-size:.9375rem}
.sign{display:none}
footer{color:var(--soft);font-size:.9375rem;padding-top:2rem;padding-bottom:3rem}
@media(min-width:60rem){
main{grid-template-columns:minmax(0,1.55fr) minmax(21rem,1fr);align-items:start}
.drawing{position:sticky;top:1rem}
}
@media(prefers-reduced-motion:no-preference){.reply{transition:background .15s}}
"""

_PRINT = """\
@page{size:WIDEmm HIGHmm;margin:10mm}
@media print{
body{background:#fff;font-size:10.5pt;line-height:1.35;overflow-wrap:anywhere}
header,main,footer{max-width:none;padding:0;margin:0}
.skip,.switches,.reply,.note,.hint{display:none}
h1{font-size:17pt}h2{font-size:12pt;margin-bottom:1.5mm}.for{font-size:12pt;margin-top:.5mm}
.kind,dt,figcaption,td small,.cautions{font-size:9pt}
.facts{margin-top:2mm;gap:1mm 8mm}
.banner,.seen{margin-top:2mm;padding:1.5mm 3mm}
.banner{-webkit-print-color-adjust:exact;print-color-adjust:exact}
main,.card,.drawing{display:block;position:static;border:0;padding:0}
.drawing{break-after:page}
.pane{overflow:visible;max-height:none}
body .pane svg,body:has(#zoom-2:checked) .pane svg,body:has(#zoom-4:checked) .pane svg{
width:DRAWmm;height:TALLmm;max-height:none;max-width:none;margin:3mm auto 0}
.bar{display:block;width:BARmm;height:BARHmm}
.words section{break-inside:avoid}
.words section+section{padding-top:3mm;margin-top:3mm}
.sample svg{width:8mm;height:8mm}.sample svg+svg{width:8mm;height:5mm}
th,td{padding-top:1mm;padding-bottom:1mm}
.sign{display:block;border-top:1px solid var(--ink);margin-top:14mm;max-width:90mm}
footer{padding:4mm 0 0}
}
"""


def page_style(
    paper: tuple[float, float], drawing: tuple[float, float], bar: tuple[float, float], ways: int
) -> str:
    """The style for a paper, a drawing and a scale bar of these sizes (mm), and its colourways."""
    sizes = {
        "WIDE": paper[0],
        "HIGH": paper[1],
        "DRAW": drawing[0],
        "TALL": drawing[1],
        "BARH": bar[1],
        "BAR": bar[0],
    }
    printed = _PRINT
    for name, size in sizes.items():
        printed = printed.replace(f"{name}mm", f"{size:g}mm")
    return _STYLE.replace("FAMILY", FAMILY) + _switching(ways) + printed


def _switching(ways: int) -> str:
    """Rules by which a radio button shows its colourway, and what belongs to it in words.

    What a drawing places many times inherits its colourway through variables.
    """
    if ways == 1:
        return ""
    numbers = range(1, ways + 1)
    lines = [f".only-{n}{{display:var(--way-{n},{_shown(n == 1)})}}" for n in numbers]
    for chosen in numbers:
        drawn = ";".join(f"--way-{n}:{_shown(n == chosen)}" for n in numbers)
        lines.append(f"body:has(#way-{chosen}:checked){{{drawn}}}")
    told = ",".join(
        f"body:has(#way-{chosen}:checked) .told:not(.told-{chosen})" for chosen in numbers
    )
    return "\n".join((*lines, f"{told}{{display:none}}", ""))


def _shown(shown: bool) -> str:
    return "inline" if shown else "none"
