// Package draw is the only maker of pictures. Every picture is an inline SVG
// with the table of its numbers behind it and one sentence that says what it
// shows.
//
// The pictures have one ink, one paper and one warm accent, all three taken
// from the page (Style), so that the same drawing serves a light page, a dark
// one and a printed sheet. Stages are told by hatch and word, not by hue. A
// picture is as wide as the page gives it: horizontal places are percentages
// of that width, while letters, hatches and line widths keep their size.
//
// The words and the reader's units come in with the data; draw knows neither.
package draw
