package web

import (
	"io"
	"strconv"
	"strings"

	"awn/internal/malthouse"
	"awn/internal/report"
)

// sheets makes documents of the record for whoever looks.
func (s *Server) sheets(v visit) report.Sheets {
	name, _, err := s.House.Desk.Setting(v.Context(), malthouse.SettingName)
	if err != nil || name == "" {
		name = s.House.Code
	}
	return report.Sheets{House: name, Zone: s.House.Zone, Units: v.Units, Version: s.Version, At: s.House.Clock()}
}

// leafRoom is a document as a page, with the address at which it is printed.
func leafRoom(v visit, l report.Leaf) room {
	out := room{Title: strings.TrimSpace(l.Title + " " + l.Number)}
	for _, pair := range l.About {
		if pair[1] != "" {
			out.Says = append(out.Says, saying{Text: pair[0] + ": " + pair[1]})
		}
	}
	for _, text := range l.First {
		out.Says = append(out.Says, saying{Text: text})
	}
	for i, p := range l.Shown() {
		part := roomPart{}
		if len(p.Rows) > 0 {
			g := &grid{ID: "part-" + strconv.Itoa(i+1), Caption: p.Title, Head: p.Head}
			for _, r := range p.Rows {
				row := make([]cell, len(p.Head))
				for k := range min(len(row), len(r)) {
					row[k] = word(r[k])
				}
				g.Rows = append(g.Rows, row)
			}
			part.Grid = g
		} else {
			part.Heading = p.Title
		}
		part.Says = sayings(p.Says)
		out.Parts = append(out.Parts, part)
	}
	out.Parts = append(out.Parts, roomPart{Says: append(sayings(l.Proof), saying{Text: v.Units.Say("leaf.print"), Href: withQuery(v.URL, "print", "pdf")})})
	return out
}

func sayings(texts []string) (out []saying) {
	for _, t := range texts {
		out = append(out, saying{Text: t})
	}
	return out
}

// printed is a document on paper, if that is what was asked for.
func printed(v visit, name string, l report.Leaf) *file {
	if v.URL.Query().Get("print") != "pdf" {
		return nil
	}
	return &file{name + ".pdf", kindPDF, func(w io.Writer) error { return l.PDF(w, paperOf(v.Units)) }}
}

// leaf opens a page that is a document.
func (s *Server) leaf(path string, of func(visit) (report.Leaf, []roomPart, error)) {
	s.room("GET "+path, malthouse.UseLook, func(v visit) (room, error) {
		l, more, err := of(v)
		if err != nil {
			return room{}, err
		}
		out := leafRoom(v, l)
		out.API = apiAt + v.URL.EscapedPath()
		out.File = printed(v, strings.Trim(strings.ReplaceAll(path, "/", "-"), "-{}"), l)
		out.Parts = append(more, out.Parts...)
		return out, nil
	})
}
