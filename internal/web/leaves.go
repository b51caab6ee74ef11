package web

import (
	"fmt"
	"io"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"

	"awn/examples"
	"awn/internal/malthouse"
	"awn/internal/paper"
	"awn/internal/report"
	"awn/internal/slip"
	"awn/ledger"
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
	return &file{name + ".pdf", kindPDF, func(w io.Writer) error { return l.PDF(w, paperOf(report.Report{Units: v.Units})) }}
}

// leaf opens a page that is a document.
func (s *Server) leaf(path string, of func(visit) (report.Leaf, []roomPart, error)) {
	s.room("GET "+path, malthouse.UseLook, func(v visit) (room, error) {
		l, more, err := of(v)
		if err != nil {
			return room{}, err
		}
		out := leafRoom(v, l)
		out.File = printed(v, strings.Trim(strings.ReplaceAll(path, "/", "-"), "-{}"), l)
		out.Parts = append(more, out.Parts...)
		return out, nil
	})
}

// openLeaves opens the pages that are documents.
func (s *Server) openLeaves() {
	s.leaf("/due", func(v visit) (report.Leaf, []roomPart, error) {
		all, err := s.House.Due(v.Context(), v.Actor, 24*time.Hour)
		return s.sheets(v).Due(all), []roomPart{{Slips: v.may(s.form(v, "decide", "/due", nil))}}, err
	})
	s.leaf("/handover", func(v visit) (report.Leaf, []roomPart, error) {
		x, err := s.House.Shift(v.Context(), v.Actor, s.House.Clock().Add(-shiftLasts))
		sign := blankForm{At: "/handover/give", Word: v.Units.Say("shift.give"), Blanks: []blank{{Name: "note", Label: v.Units.Say("slip.field.note"), Wide: true}}}
		if x.Given != nil {
			sign = blankForm{At: "/handover/take", Word: v.Units.Say("shift.take", "who", x.Given.Fact.Who)}
		}
		var parts []roomPart
		if v.Actor.May(malthouse.UseShift) {
			parts = []roomPart{{Forms: []blankForm{sign}}}
		}
		return s.sheets(v).Shift(x, nil), parts, err
	})
	s.leaf("/pieces/{code}/assurance", func(v visit) (report.Leaf, []roomPart, error) {
		plan, points, err := s.points(v)
		if err != nil {
			return report.Leaf{}, nil, err
		}
		a, err := s.House.Assure(v.Context(), v.Actor, ledger.Code(v.PathValue("code")), points)
		return s.sheets(v).Assurance(plan, []malthouse.Assurance{a}), nil, err
	})
	s.leaf("/complaint", func(v visit) (report.Leaf, []roomPart, error) {
		q := v.URL.Query()
		claims, err := slip.Figures("claim", filledIn(q["claim"]), "")
		if err != nil {
			return report.Leaf{}, nil, &fault{422, "web.form.unreadable", err.Error()}
		}
		c, err := s.House.Complain(v.Context(), v.Actor, slip.Bare(q.Get("lot")), claims)
		return s.sheets(v).Complaint(c), nil, err
	})
	s.openShifts()
}

// shiftLasts is how far back a handover looks.
const shiftLasts = 8 * time.Hour

func filledIn(texts []string) []string {
	return slices.DeleteFunc(texts, func(t string) bool { return strings.TrimSpace(t) == "" })
}

// points are the control points that the house keeps, or those of the example.
func (s *Server) points(v visit) (string, []malthouse.ControlPoint, error) {
	text, found, err := s.House.Desk.Setting(v.Context(), malthouse.SettingPoints)
	if err != nil {
		return "", nil, err
	}
	if !found {
		data, err := examples.Files.ReadFile(examples.FirstPoints)
		if err != nil {
			return "", nil, err
		}
		text = string(data)
	}
	doc, faults := paper.Read[paper.ControlPoints](examples.FirstPoints, []byte(text))
	if len(faults) > 0 {
		return "", nil, faults
	}
	points, err := slip.Points(doc)
	return doc.Name, points, err
}

// certificateAt is where a certificate is shown to the house.
func certificateAt(number string) string { return "/certificates/" + url.PathEscape(number) }

// sheetOf is a certificate as it is shown.
func (s *Server) sheetOf(v visit, c malthouse.Certificate) report.CertificateSheet {
	return report.CertificateSheet{Certificate: c.Certificate, Key: c.Key, Units: v.Units, Version: s.Version}
}

// signedFile is a certificate as the file that programs check.
func signedFile(c malthouse.Certificate) *file {
	return &file{string(c.Number) + ".json", kindJSON, func(w io.Writer) error { _, err := fmt.Fprintln(w, string(c.Signed)); return err }}
}
