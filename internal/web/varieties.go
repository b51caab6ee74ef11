package web

import (
	"bytes"
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"errors"
	"html/template"
	"io"
	"io/fs"
	"net/http"
	"strings"

	"awn/examples"
	"awn/internal/paper"
	"awn/internal/report"
	"awn/internal/table"
	"awn/variety"
)

// trialDraws are the draws behind the scores, as the command makes them.
const trialDraws = 4000

// trialled is a trial with what it says.
type trialled struct {
	Name, Check, Text string
	Faults            []string
	Body              template.HTML
}

// varieties ranks the varieties of a trial.
func (s *Server) varieties(r *http.Request) (page, error) {
	acc := s.account(r)
	d := trialled{}
	a, err := s.trial(r, &d)
	var wrong *tableFaults
	switch {
	case errors.As(err, &wrong):
		d.Faults = wrong.lines
	case err != nil:
		return page{}, err
	default:
		if d.Body, err = set(a.Live(), "/varieties/table.csv"); err != nil {
			return page{}, err
		}
	}
	return page{name: "varieties", title: acc.Units.Say("page.varieties.title"), part: "outcome", data: d}, nil
}

// trialFile gives a file of a trial by its name.
func (s *Server) trialFile(r *http.Request) (file, error) {
	a, err := s.trial(r, &trialled{})
	if err != nil {
		return file{}, err
	}
	switch name := r.PathValue("file"); name {
	case "report.html":
		return file{name, kindHTML, a.HTML}, nil
	case "trial.json":
		return file{name, kindJSON, a.JSON}, nil
	case "trial.csv":
		return file{name, kindCSV, a.CSV}, nil
	case "table.csv":
		return tableFile(a.Live(), r)
	}
	return file{}, errNoPage
}

// tableFaults are all that cannot be read in a table, a sentence for each.
type tableFaults struct{ lines []string }

func (e *tableFaults) Error() string { return strings.Join(e.lines, "\n") }

// trial reads the trial that a form sends, or the example, and weighs it.
func (s *Server) trial(r *http.Request, d *trialled) (report.TrialAccount, error) {
	t, in, err := d.read(r)
	if err != nil {
		return report.TrialAccount{}, err
	}
	return d.weigh(r.Context(), t, in, s.account(r))
}

// weigh weighs a trial.
func (d *trialled) weigh(ctx context.Context, t paper.TrialOrder, in []report.Input, a report.Report) (report.TrialAccount, error) {
	sheet, err := table.Read(bytes.NewReader(t.Table), t.Sheet)
	var wrong *table.Error
	if errors.As(err, &wrong) {
		return report.TrialAccount{}, &tableFaults{[]string{d.Name + ": " + a.Units.Say("table."+string(wrong.Problem)) + "."}}
	}
	if err != nil {
		return report.TrialAccount{}, err
	}
	if d.Check != "" {
		t.Layout.Checks = []string{d.Check}
	}
	trials, faults := variety.Read(sheet.Cells, t.Layout)
	if len(faults) > 0 {
		return report.TrialAccount{}, &tableFaults{report.TableFaults(d.Name, sheet.Line, faults, a.Units)}
	}
	sum := sha256.Sum256(t.Table)
	out := report.TrialAccount{
		Name: d.Name, Trials: trials, Draws: trialDraws, Seed: 1, Version: a.Version, Units: a.Units,
		Inputs: append(in, report.Input{Kind: "table", SHA256: hex.EncodeToString(sum[:])}),
	}
	t.Brief.Rank = variety.RankOptions{Draws: trialDraws, Seed: 1}
	out.Account, err = trials.Weigh(ctx, t.Brief)
	if errors.Is(err, variety.ErrNothing) {
		err = &tableFaults{[]string{d.Name + ": " + err.Error() + "."}}
	}
	return out, err
}

// read is the table that a form sends: a file, one that was sent before, or the
// example with what its document asks.
func (d *trialled) read(r *http.Request) (t paper.TrialOrder, in []report.Input, err error) {
	t.Brief = variety.Brief{MoreYears: 1, MoreSites: 1}
	if r.Method == http.MethodPost {
		if t.Table, err = d.sent(r); err != nil || t.Table != nil {
			return t, nil, err
		}
	}
	data, err := fs.ReadFile(examples.Files, examples.FirstTrial)
	if err != nil {
		return t, nil, err
	}
	t, docs, faults := paper.LoadTrial(examples.Files, examples.FirstTrial, data)
	if len(faults) > 0 {
		return t, nil, faults
	}
	d.Name = cmp.Or(t.Name, examples.FirstTrial)
	return t, report.Inputs(docs), nil
}

// sent is the table of a form; nil if it has none.
func (d *trialled) sent(r *http.Request) ([]byte, error) {
	err := r.ParseForm()
	if err == nil {
		err = r.ParseMultipartForm(mostBytes)
	}
	if err != nil && !errors.Is(err, http.ErrNotMultipart) {
		return nil, unreadable(err)
	}
	f, head, err := r.FormFile("table-file")
	d.Check, d.Text = r.PostFormValue("check"), r.PostFormValue("sent")
	switch {
	case err == nil:
		defer func() { _ = f.Close() }() // nothing was written
		data, err := io.ReadAll(f)
		d.Name = head.Filename
		d.Text = base64.StdEncoding.EncodeToString(data)
		return data, err
	case !errors.Is(err, http.ErrMissingFile) && !errors.Is(err, http.ErrNotMultipart):
		return nil, unreadable(err)
	case d.Text == "":
		return nil, nil
	}
	d.Name = cmp.Or(r.PostFormValue("sent-name"), "table")
	data, err := base64.StdEncoding.DecodeString(d.Text)
	if err != nil {
		return nil, unreadable(err)
	}
	return data, nil
}
