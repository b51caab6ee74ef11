package web

import (
	"encoding/json"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"time"

	"awn/internal/malthouse"
	"awn/internal/report"
	"awn/internal/slip"
)

// scriptAt is where the scripts of pages ask. They are answered in JSON and by
// their status, and never led to another page: a slip that waits on a phone must
// know whether it was taken.
const scriptAt = "/by-script"

// lookAt is where a slip is read as it is typed, and not entered.
const lookAt = "/look/"

// What a script sends beside a slip.
const (
	madeBy  = "Awn-Who"   // name at the keyboard of whoever made the entry
	clockOf = "Awn-Clock" // the clock of the phone when it sends, in ms since 1970 UTC
)

// mostOff is how far the clock of a phone may be off before that is said.
const mostOff = 2 * time.Minute

// handed is the answer to a slip that was taken.
type handed struct {
	ID    string   `json:"id"`
	Again bool     `json:"again"`
	Says  []string `json:"says"`
}

// openScripts opens what scripts of pages ask: every slip can be looked at and
// handed in.
func (s *Server) openScripts() {
	for name, made := range slips {
		use := made().Use()
		s.script("POST "+scriptAt+slipsAt+name, use, func(v visit) (any, error) { return s.handIn(v, made()) })
		s.script("POST "+scriptAt+lookAt+name, use, func(v visit) (any, error) { return struct{}{}, s.look(v, made()) })
	}
}

// byScript reports whether a script of a page asks.
func byScript(r *http.Request) bool { return strings.HasPrefix(r.URL.Path, scriptAt+"/") }

// script answers a script of a page, if who asks may ask it.
func (s *Server) script(pattern string, use malthouse.Use, h func(visit) (any, error)) {
	s.mux.HandleFunc(pattern, func(w http.ResponseWriter, r *http.Request) {
		a, _ := asker(r) // nobody else comes through the doors
		err := a.Permit(use)
		var answer any
		if err == nil {
			answer, err = h(visit{r, a, readerOf(r)})
		}
		var body []byte
		if err == nil {
			body, err = json.Marshal(answer)
		}
		if err != nil {
			s.problem(w, r, ofRecord(err))
			return
		}
		s.send(w, kindJSON, http.StatusOK, body)
	})
}

// sentSlip is the form that a script sends.
func sentSlip(v visit) (url.Values, error) {
	if err := v.ParseForm(); err != nil {
		return nil, unreadable(err)
	}
	folded(v.PostForm)
	return v.PostForm, nil
}

// handIn enters a slip. It belongs to whoever made it, and is taken under the
// session of nobody else.
func (s *Server) handIn(v visit, one slip.Slip) (out handed, err error) {
	typed, err := sentSlip(v)
	if err != nil {
		return out, err
	}
	if who := v.Header.Get(madeBy); who != "" && who != v.Actor.ID {
		return out, refuse(http.StatusForbidden, "web.slip.other", who)
	}
	done, err := s.take(v, one, typed)
	if err != nil {
		return out, err
	}
	done.Notes = append(done.Notes, s.clockNotes(v.Header.Get(clockOf))...)
	s.said.keep(done)
	out = handed{ID: done.Fact.ID, Again: done.Again, Says: []string{report.Say(done.Said, v.Units)}}
	for _, n := range done.Notes {
		out.Says = append(out.Says, report.Say(n, v.Units))
	}
	return out, nil
}

// clockNotes says that the clock of a phone is off, by the clock of the house.
// What was entered stays as it was stated: the record has both times.
func (s *Server) clockNotes(clock string) []malthouse.Said {
	ms, err := strconv.ParseInt(clock, 10, 64)
	if err != nil {
		return nil
	}
	off, what := time.UnixMilli(ms).Sub(s.House.Clock()), "clock-ahead"
	if off < 0 {
		off, what = -off, "clock-behind"
	}
	if off <= mostOff {
		return nil
	}
	return []malthouse.Said{{What: what, Words: []string{"span", strconv.Itoa(int(off.Round(time.Minute).Minutes()))}}}
}

// look reads a slip as it is typed and says what is wrong with it, as entering
// it would; nothing is entered.
func (s *Server) look(v visit, one slip.Slip) error {
	typed, err := sentSlip(v)
	if err != nil {
		return err
	}
	return s.House.Rehearse(func(dry *malthouse.House) error {
		_, err := s.takeInto(dry, v, one, typed)
		return err
	})
}

// quickPrefix begins the name of a field for one figure of a reading: the name of
// the figure and its unit stand behind it, as in "results:temperature °C", so
// that the figure alone is typed.
const quickPrefix = "results:"

// folded makes figures typed on fields of their own results of the slip.
func folded(typed url.Values) {
	for _, of := range quickFigures {
		for _, unit := range []string{of.metric, of.us} {
			field := quickPrefix + of.name + " " + unit
			for _, text := range typed[field] {
				if text = strings.TrimSpace(text); text == "" {
					continue
				}
				if strings.Trim(text, "+-−0123456789., ") == "" { // a figure without its unit
					text += " " + unit
				}
				typed.Add("results", of.name+" "+text)
			}
			delete(typed, field)
		}
	}
}

// quickFigures are the figures that have a field of their own on the floor.
var quickFigures = []struct{ name, metric, us string }{
	{"temperature", "°C", "°F"}, {"moisture", "% wb", "% wb"},
}

// quick is a form for a reading of which only the figure is typed: touch a
// field, type, touch the button.
func (s *Server) quick(v visit, f slipForm) slipForm {
	f.Open, f.Quick = true, true
	var shown, hidden []slipField
	for _, of := range quickFigures {
		unit := of.metric
		if v.Units.Fahrenheit {
			unit = of.us
		}
		one := slipField{Field: slip.Field{Name: quickPrefix + of.name + " " + unit}, Label: v.Units.Say("phone.figure."+of.name, "unit", unit), Decimal: true}
		one.ID = f.Name + "-" + f.ID[len(f.ID)-6:] + "-" + of.name
		shown = append(shown, one)
	}
	for _, x := range append(f.Shown, f.Hidden...) {
		switch {
		case x.Name == "results":
			x.Must, x.Label = false, v.Units.Say("phone.figure.other")
			hidden = append(hidden, x)
		case x.Must:
			shown = append([]slipField{x}, shown...)
		default:
			hidden = append(hidden, x)
		}
	}
	f.Shown, f.Hidden = shown, hidden
	return f
}
