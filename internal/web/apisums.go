package web

import (
	"io"
	"net/http"
	"slices"
	"strings"

	"awn/internal/paper"
	"awn/internal/report"
	"awn/reckon"
)

func (s *Server) apiEntries(r *http.Request) (reply, error) {
	all := reckon.Entries()
	slices.SortFunc(all, func(a, b *reckon.Entry) int { return strings.Compare(a.Name, b.Name) })
	page, next, err := pageOf(r.URL, all, named(func(e *reckon.Entry) string { return e.Name }))
	if err != nil {
		return reply{}, err
	}
	list := []report.Pairs{}
	for _, e := range page {
		given := []report.Pairs{}
		for _, in := range e.Inputs {
			one := report.Pairs{}.With("key", in.Key).With("says", in.Doc).With("must", in.Must)
			if units := in.Units(); len(units) > 0 {
				one = one.With("units", units)
			}
			if in.Default != "" {
				one = one.With("default", in.Default)
			}
			given = append(given, one)
		}
		list = append(list, report.Pairs{}.With("name", e.Name).With("title", e.Title).With("subject", e.Subject).With("inputs", given).With("examples", e.Examples))
	}
	result := report.Pairs{}.With("entries", list)
	if next != "" {
		result = result.With("next", next)
	}
	return listed(next, func(w io.Writer) error {
		return report.WriteJSON(w, report.Pairs{}.With("awn", "entries/2").With("program", s.Version.Release).With("model", s.Version.Model).With("result", result))
	})
}

func (s *Server) apiReckon(r *http.Request) (reply, error) {
	e, err := reckon.Find(r.PathValue("entry"))
	if err != nil {
		return reply{}, err
	}
	a, err := e.Ask(r.FormValue("ask"))
	if err != nil {
		return reply{}, err
	}
	return writtenReply(report.Reckoning(a, s.Version))
}

func (s *Server) apiFormulas(r *http.Request) (reply, error) {
	all := reckon.Catalogue()
	slices.SortFunc(all, func(a, b reckon.Formula) int { return strings.Compare(a.Key(), b.Key()) })
	return paged(s, r.URL, all, nil, named(reckon.Formula.Key), report.FormulasJSON)
}

func (s *Server) apiTrial(r *http.Request) (reply, error) {
	name, data, files, err := sent(r)
	if err != nil {
		return reply{}, err
	}
	t, docs, faults := paper.LoadTrial(files, name, data)
	if len(faults) > 0 {
		return reply{}, faults
	}
	a, err := (&trialled{Name: t.Name}).weigh(r.Context(), t, report.Inputs(docs), report.Report{Version: s.Version})
	if err != nil {
		return reply{}, refusal(err)
	}
	return toldJSON(a.JSON)
}

func (s *Server) apiSurvey(r *http.Request) (reply, error) {
	name, data, files, err := sent(r)
	if err != nil {
		return reply{}, err
	}
	a, err := surveyed(r.Context(), files, name, data, report.Report{Version: s.Version})
	if err != nil {
		return reply{}, refusal(err)
	}
	return toldJSON(a.JSON)
}

func (s *Server) apiPiece(r *http.Request) (reply, error) {
	name, data, files, err := sent(r)
	if err != nil {
		return reply{}, err
	}
	piece, in, faults := paper.LoadPiece(files, name, data)
	if len(faults) > 0 {
		return reply{}, faults
	}
	acc := report.Report{Version: s.Version, Inputs: report.Inputs(in)}
	if acc.Outcome, err = ran(&piece); err != nil {
		return reply{}, cannot(err)
	}
	return toldJSON(acc.JSON)
}

func (s *Server) apiLoad(r *http.Request) (reply, error) {
	name, data, files, err := sent(r)
	if err != nil {
		return reply{}, err
	}
	d, in, faults := paper.LoadTicket(files, name, data)
	if len(faults) > 0 {
		return reply{}, faults
	}
	return toldJSON(judged(d, in, report.Report{Version: s.Version}).JSON)
}

func (s *Server) apiSilo(r *http.Request) (reply, error) {
	name, data, files, err := sent(r)
	if err != nil {
		return reply{}, err
	}
	store, in, faults := paper.LoadSilo(files, name, data)
	if len(faults) > 0 {
		return reply{}, faults
	}
	a, err := keptAs(store, in, report.Report{Version: s.Version})
	if err != nil {
		return reply{}, cannot(err)
	}
	return toldJSON(a.JSON)
}
