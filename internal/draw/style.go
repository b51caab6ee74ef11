package draw

// Style is the style sheet of the pictures. It takes ink, paper, the warm
// accent and the tone of lesser words from the page's variables --ink,
// --paper, --warm and --faint.
const Style = `svg.awn{display:block;overflow:visible;margin-left:40px;width:calc(100% - 44px);font:13px/1 var(--text,serif);fill:var(--ink)}
svg.awn.full{margin-left:0;width:100%}
svg.awn text{font-variant-numeric:lining-nums tabular-nums;paint-order:stroke;stroke:var(--paper);stroke-width:3.5px;stroke-linejoin:round}
svg.awn .tick,svg.awn .axis{font-size:11.5px;fill:var(--faint)}
svg.awn .stage{font-style:italic;font-size:13.5px}
svg.awn .title{font-size:13.5px}
svg.awn .label{font-size:13px}
svg.awn .label.faint{fill:var(--faint);font-style:italic}
svg.awn .strong{font-weight:600}
svg.awn text.warm{fill:var(--warm)}
svg.awn .end{text-anchor:end}
svg.awn .mid{text-anchor:middle}
svg.awn .hair{stroke:var(--ink);stroke-opacity:.16;stroke-width:1}
svg.awn .frame{stroke:var(--ink);stroke-width:1}
svg.awn .seam{stroke:var(--ink);stroke-opacity:.55;stroke-width:1;stroke-dasharray:1 3}
svg.awn .turn{stroke:var(--ink);stroke-opacity:.5;stroke-width:1;stroke-dasharray:5 3}
svg.awn .moment{stroke:var(--warm);stroke-width:1.2}
svg.awn .moment-word{fill:var(--warm);font-style:italic}
svg.awn .break{stroke:var(--ink);stroke-width:3.2}
svg.awn .limit{stroke:var(--ink);stroke-width:2}
svg.awn .plot{overflow:hidden}
svg.awn .plot path{vector-effect:non-scaling-stroke}
svg.awn .line{fill:none;stroke:var(--ink);stroke-width:1.7;stroke-linejoin:round}
svg.awn .line.fine{stroke-width:1;stroke-opacity:.7}
svg.awn .line.dashed{stroke-width:1.2;stroke-dasharray:5 3}
svg.awn .line.accent{stroke:var(--warm);stroke-width:1.9}
svg.awn .band{fill:var(--ink);fill-opacity:.13}
svg.awn .band.hem{fill:var(--warm);fill-opacity:.2}
svg.awn .hump{fill:var(--ink);fill-opacity:.14}
svg.awn .tint{fill:var(--ink);fill-opacity:.05;fill-rule:evenodd}
svg.awn .tint.warm{fill:var(--warm);fill-opacity:.075}
svg.awn .iso{fill:none;stroke:var(--ink);stroke-width:.8;stroke-linejoin:round}
svg.awn .iso.index{stroke-width:1.4}
svg.awn .iso.warm{stroke:var(--warm)}
svg.awn .iso-word{font-size:11.5px}
svg.awn .bar{fill:var(--ink);stroke:var(--ink);stroke-width:1}
svg.awn .bar.out{fill-opacity:.28}
svg.awn .bar.open{fill:none}
svg.awn .hem{fill:var(--ink);fill-opacity:.2}
svg.awn .mark{fill:var(--ink);stroke:var(--paper);stroke-width:1.5}
svg.awn .mark.warm{fill:var(--warm)}
svg.awn .mark.out{fill:var(--paper);stroke:var(--ink)}
svg.awn .hem-line{stroke:var(--ink);stroke-opacity:.32;stroke-width:3}
svg.awn .life{stroke:var(--ink);stroke-width:2}
svg.awn .ray{stroke:var(--warm);stroke-width:1.2}
svg.awn.square{margin:0 auto;width:100%;max-width:460px;height:auto}
svg.awn .corn{overflow:visible}
svg.awn .husk{fill:none;stroke:var(--ink);stroke-width:1.1}
svg.awn .shoot{fill:none;stroke:var(--warm);stroke-width:2;stroke-linecap:round}
svg.awn .h{fill:none;stroke:var(--ink);stroke-width:.8}
svg.awn .d{fill:var(--ink)}
svg.awn .land{fill:var(--ink);stroke:var(--ink);stroke-width:1.5;stroke-linejoin:round}
svg.awn .place{font-size:20px}
svg.awn.map{max-width:640px;height:auto}
svg.awn .strung{stroke:var(--ink);stroke-width:2.2}
svg.awn .strung.ahead{stroke-width:1.5;stroke-dasharray:6 3}
svg.awn .track{stroke-opacity:.28}
svg.awn .peg path{fill:var(--ink);stroke:var(--paper);stroke-width:1}
svg.awn .peg.fixed path{fill:var(--paper);stroke:var(--ink)}
svg.awn .peg .pull{stroke:var(--ink);stroke-opacity:.3;stroke-width:1;stroke-dasharray:1 4}
svg.awn .peg .reach{fill:none}
svg.awn .peg-word{display:none}
@media (max-width:600px){svg.awn .wide-only{display:none}}
`
