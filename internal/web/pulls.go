package web

import (
	"fmt"
	"strings"

	"awn/course"
	"awn/internal/report"
)

// pulls are the fields by which a programme sets its steps, in the order of the
// steps of each stage.
func (d *document) pulls() map[course.Stage][]report.Pull {
	out := map[course.Stage][]report.Pull{}
	for _, s := range []course.Stage{course.Steep, course.Germinate, course.Kiln} {
		list := s.String()
		for i := range d.Values.Len(list) {
			out[s] = append(out[s], d.pull(fmt.Sprintf("%s[%d].", list, i)))
		}
	}
	return out
}

// pull is how the step at a path is set.
func (d *document) pull(step string) (p report.Pull) {
	for path, text := range d.Values {
		rest, ok := strings.CutPrefix(path, step)
		if !ok {
			continue
		}
		switch rest[strings.LastIndex(rest, ".")+1:] {
		case "for":
			p.For = d.File + ":" + path
		case "until":
			p.Until = text
		case "turn_every":
			p.Turn = d.File + ":" + path
		}
	}
	return p
}
