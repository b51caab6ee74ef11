package web

import (
	"html/template"
	"io"
	"net/http"

	"awn/examples"
	"awn/intake"
	"awn/internal/paper"
	"awn/internal/report"
	"awn/internal/sheet"
	"awn/internal/words"
	"awn/silo"
)

// loadParts and siloParts are the documents of a load and of a silo.
var (
	loadParts = []part{{examples.FirstLoad, "load/1"}, {"contract.yaml", ""}}
	siloParts = []part{{examples.FirstSilo, "silo/1"}, {"silo-readings.csv", ""}}
)

// Where these pages lie.
const (
	loadAt = "/intake"
	siloAt = "/silos"
)

// reckoned is a document on a form, with what comes of it.
type reckoned struct {
	At        string
	Documents documents
	First     *document
	Others    []*document
	Faults    []told
	Wrong     string
	Body      template.HTML
}

// judged is all that the document of a load asks for.
func judged(d paper.Delivery, in []paper.Input, r report.Report) report.LoadAccount {
	return report.LoadAccount{
		Load: d.Load, Assessment: intake.Assess(&d.Load, d.Table, d.Contract, d.Bins), Version: r.Version, Units: r.Units, Inputs: report.Inputs(in),
	}
}

// loadOf judges the load of a form.
func loadOf(docs documents, r report.Report) (report.LoadAccount, paper.Faults) {
	d, in, faults := paper.LoadTicket(docs, docs[0].File, []byte(docs[0].Text))
	if len(faults) > 0 {
		return report.LoadAccount{}, faults
	}
	return judged(d, in, r), nil
}

// keptAs is how a silo stands.
func keptAs(store silo.Store, in []paper.Input, r report.Report) (report.StoreAccount, error) {
	account, err := silo.Keep(store)
	return report.StoreAccount{Store: store, Account: account, Version: r.Version, Units: r.Units, Inputs: report.Inputs(in)}, err
}

// siloOf works out the silo of a form.
func siloOf(docs documents, r report.Report) (report.StoreAccount, paper.Faults, error) {
	store, in, faults := paper.LoadSilo(docs, docs[0].File, []byte(docs[0].Text))
	if len(faults) > 0 {
		return report.StoreAccount{}, faults, nil
	}
	a, err := keptAs(store, in, r)
	return a, nil, err
}

// load reckons the slip of a load at the gate.
func (s *Server) load(r *http.Request) (page, error) {
	docs, err := documentsOf(r, loadParts)
	if err != nil {
		return page{}, err
	}
	acc := s.account(r)
	a, faults := loadOf(docs, acc)
	var live *report.Live
	if len(faults) == 0 {
		live = a.Live()
	}
	return reckonedPage(acc.Units, loadAt, "intake", acc.Units.Say("page.intake.title"), docs, faults, nil, live)
}

// silo says how a silo keeps.
func (s *Server) silo(r *http.Request) (page, error) {
	docs, err := documentsOf(r, siloParts)
	if err != nil {
		return page{}, err
	}
	acc := s.account(r)
	a, faults, err := siloOf(docs, acc)
	var live *report.Live
	if len(faults) == 0 && err == nil {
		live = a.Live()
	}
	return reckonedPage(acc.Units, siloAt, "silos", acc.Units.Say("page.silos.title"), docs, faults, err, live)
}

// reckonedPage is the page of a document with what comes of it.
func reckonedPage(u words.Units, at, name, title string, docs documents, faults paper.Faults, wrong error, live *report.Live) (page, error) {
	docs.lay(faults)
	d := reckoned{At: at, Documents: docs, First: docs[0], Others: docs[1:], Faults: docs.tell(u, docs.refused(faults))}
	if wrong != nil {
		d.Wrong = wrong.Error()
	}
	if live != nil {
		var err error
		if d.Body, err = set(live, at+"/table.csv"); err != nil {
			return page{}, err
		}
	}
	return page{name: name, title: title, part: "outcome", form: true, data: d}, nil
}

// paperOf is the paper that a reader prints on.
func paperOf(u words.Units) sheet.Paper {
	if u.Customary {
		return sheet.Letter
	}
	return sheet.A4
}

// loadSheet is a load on a sheet to print.
func loadSheet(a report.LoadAccount, p sheet.Paper) func(io.Writer) error {
	return func(w io.Writer) error { return report.LoadSheets(w, []report.LoadAccount{a}, p) }
}
