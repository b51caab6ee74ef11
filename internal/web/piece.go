package web

import (
	"bytes"
	"context"
	"html/template"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"awn/course"
	"awn/examples"
	"awn/internal/paper"
	"awn/internal/report"
)

// pieceParts are the documents of a piece in the order in which they are changed
// most.
var pieceParts = []part{
	{"programme-pale.yaml", "programme/1"}, {"lot-easy.yaml", "lot/1"}, {examples.First, "piece/1"}, {"specification-pale.yaml", ""}, {"plant.yaml", ""},
}

// liveDraws are enough draws for hems and odds to look at while a piece is
// thought out, seconds after a change; a release wants a thousand.
const liveDraws = 24

// pieceAt is where the page of a piece lies, formulasAt the formulas.
const (
	pieceAt    = "/piece"
	formulasAt = "/formulas"
)

// designed is a piece as it is being thought out.
type designed struct {
	Documents documents
	Programme *document
	Others    []*document
	Faults    []told
	Wrong     string // why the piece cannot be computed
	Body      template.HTML
	Kept      []variant
	Full      bool      // no more can be kept
	Here      *keptHere // of a house with a record
}

// variant is a programme that was set aside.
type variant struct {
	Letter, Name, Text string
	Number             int
}

// piece takes a piece through its course as its documents are changed.
func (s *Server) piece(r *http.Request) (page, error) {
	d, err := design(r)
	if err == nil {
		err = s.beginWith(r, d.Documents)
	}
	if err == nil {
		d.Here, err = s.mayKeep(r, d)
	}
	if err != nil {
		return page{}, err
	}
	do, which, _ := strings.Cut(r.PostFormValue("do"), " ")
	d.vary(do, which)
	acc := s.account(r)
	live, faults, err := d.reckon(r.Context(), acc, do, which)
	d.Documents.lay(faults)
	d.Faults = d.Documents.tell(acc.Units, d.Documents.refused(faults))
	if err != nil {
		d.Wrong = err.Error()
	}
	if live != nil {
		if d.Body, err = set(live, pieceAt+"/table.csv"); err != nil {
			return page{}, err
		}
	}
	return page{name: "piece", title: acc.Units.Say("page.piece.title"), part: "outcome", form: true, data: d}, nil
}

// design reads the form.
func design(r *http.Request) (*designed, error) {
	docs, err := documentsOf(r, pieceParts)
	if err != nil {
		return nil, err
	}
	d := &designed{Documents: docs, Programme: docs[0], Others: docs[1:]}
	for _, text := range r.PostForm["kept"] {
		d.keep(strings.ReplaceAll(text, "\r\n", "\n"))
	}
	return d, nil
}

// keep sets a programme aside, if it is none of those that are.
func (d *designed) keep(text string) {
	name := paper.ValuesOf([]byte(text))["name"]
	same := slices.ContainsFunc(d.Kept, func(v variant) bool { return v.Text == text })
	if n := len(d.Kept); !same && name != "" && n < report.MostCompared-1 {
		d.Kept = append(d.Kept, variant{string(rune('A' + n)), name, text, n})
	}
	d.Full = len(d.Kept) == report.MostCompared-1
}

// vary keeps, takes up or drops a variant.
func (d *designed) vary(do, which string) {
	i, err := strconv.Atoi(which)
	there := err == nil && i >= 0 && i < len(d.Kept)
	switch {
	case do == "keep":
		d.keep(d.Programme.Text)
	case do == "use" && there:
		d.Programme.take(d.Kept[i].Text)
	case do == "drop" && there:
		kept := slices.Delete(d.Kept, i, i+1)
		d.Kept = nil
		for _, v := range kept {
			d.keep(v.Text)
		}
	}
}

// reckon runs the piece; drawn or beside a variant if that is asked for.
func (d *designed) reckon(ctx context.Context, r report.Report, do, which string) (*report.Live, paper.Faults, error) {
	piece, in, faults := paper.Load(d.Documents, examples.First)
	if len(faults) > 0 {
		return nil, faults, nil
	}
	r.Inputs, r.Pulls = report.Inputs(in), d.Programme.pulls()
	if do == "compare" {
		if i, err := strconv.Atoi(which); err == nil && i >= 0 && i < len(d.Kept) {
			return d.beside(ctx, r, d.Kept[i], &piece, in)
		}
	}
	var err error
	if do == "draw" {
		r.Outcome, r.Odds, err = drawn(ctx, &piece)
	} else {
		r.Outcome, err = ran(&piece)
	}
	if err != nil {
		return nil, nil, err
	}
	return r.Live(), nil, nil
}

// sampling is how a piece is drawn for a page.
func sampling() course.Sampling {
	return course.Sampling{Draws: liveDraws, Seed: 1, Workers: spare(), Turn: turn}
}

// ran runs a piece in its turn.
func ran(p *course.Piece) (*course.Outcome, error) {
	defer turn()()
	return course.Run(p)
}

// drawn draws a piece.
func drawn(ctx context.Context, p *course.Piece) (*course.Outcome, *course.Odds, error) {
	e, err := course.Draw(ctx, p, sampling())
	if err != nil {
		return nil, nil, err
	}
	if e.Done == 0 {
		return nil, nil, ctx.Err()
	}
	return e.Outcome, e.Weigh(course.UsualRisk), nil
}

// beside holds the programme in hand against one that was kept, on common draws.
func (d *designed) beside(ctx context.Context, r report.Report, v variant, piece *course.Piece, in []paper.Input) (*report.Live, paper.Faults, error) {
	docs := slices.Clone(d.Documents)
	docs[0] = &document{part: d.Programme.part, Text: v.Text}
	kept, keptIn, faults := paper.Load(docs, examples.First)
	if len(faults) > 0 {
		return nil, faults, nil
	}
	all, err := course.DrawTogether(ctx, []*course.Piece{&kept, piece}, sampling())
	if err != nil {
		return nil, nil, err
	}
	if all[0].Done == 0 {
		return nil, nil, ctx.Err()
	}
	c := report.Compare(r, []string{v.Name, r.Units.Say("page.piece.in-hand")}, [][]paper.Input{keptIn, in}, all)
	return c.Live(), nil, nil
}

// set sets an account as part of a page.
func set(l *report.Live, csv string) (template.HTML, error) {
	var b bytes.Buffer
	if err := l.Write(&b, csv, formulasAt); err != nil {
		return "", err
	}
	return template.HTML(b.String()), nil // set by report, which escapes every word in it
}

// account is an empty account for the reader of a page.
func (s *Server) account(r *http.Request) report.Report {
	return report.Report{Version: s.Version, Units: readerOf(r)}
}
