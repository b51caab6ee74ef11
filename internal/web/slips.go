package web

import (
	"crypto/rand"
	"errors"
	"fmt"
	"maps"
	"net/http"
	"net/url"
	"slices"
	"sync"
	"time"

	"awn/internal/malthouse"
	"awn/internal/report"
	"awn/internal/slip"
	"awn/internal/words"
	"awn/ledger"
)

// slips are the forms that enter something, by their names.
var slips = map[string]func() slip.Slip{
	"receive": func() slip.Slip { return &slip.Receive{} }, "move": func() slip.Slip { return &slip.Move{} },
	"count": func() slip.Slip { return &slip.Count{} }, "start": func() slip.Slip { return &slip.Start{} },
	"intend": func() slip.Slip { return &slip.Intend{} },
	"act":    func() slip.Slip { return &slip.Act{} }, "read": func() slip.Slip { return &slip.Read{} },
	"book": func() slip.Slip { return &slip.Book{} }, "analyse": func() slip.Slip { return &slip.Analyse{} },
	"release": func() slip.Slip { return &slip.Release{} }, "hold": func() slip.Slip { return &slip.Hold{} },
	"blend": func() slip.Slip { return &slip.Blend{} }, "ship": func() slip.Slip { return &slip.Ship{} },
	"return": func() slip.Slip { return &slip.Return{} }, "decide": func() slip.Slip { return &slip.Decide{} },
	"strike": func() slip.Slip { return &slip.Strike{} }, "person": func() slip.Slip { return &slip.Person{} },
}

// slipsAt is where slips are handed in.
const slipsAt = "/enter/"

// slipForm is a slip as it is set: what was typed, and what is wrong with it.
type slipForm struct {
	Name    string
	Title   string
	Shown   []slipField // what has to be filled in, and what was
	Hidden  []slipField // what may be said as well
	Fixed   []slipField // what the page knows already
	ID      string      // of the fact, made when the form was set
	At      string      // when it happened, as it was typed
	Zone    string      // whose clock it is typed by, where that is not the house's
	WrongAt string      // what is wrong with it
	Back    string      // where to go once it is entered
	Wrong   []string    // what is wrong with the whole of it
	Open    bool        // shown as it is, and not behind its title
	Quick   bool        // large, for a wet hand
	Word    string      // of the button
	Warn    string      // what to mind at the act
}

// slipField is one field of a slip.
type slipField struct {
	slip.Field
	ID    string
	Label string
	Value string
	Says  string // what is wrong with it
	Words []option

	Decimal bool // a figure: a phone shows its digits
}

// severally is how many rows a field has that may be given several times.
const severally = 3

// form sets a slip. Known is what the page knows of it; it is sent along, and
// the reader does not see it.
func (s *Server) form(v visit, name, back string, known url.Values) slipForm {
	return s.filled(v, name, back, known, known, nil)
}

// filled sets a slip with what was typed and what is wrong with it.
func (s *Server) filled(v visit, name, back string, known, typed url.Values, err error) slipForm {
	u := v.Units
	f := slipForm{
		Name: name, Title: u.Say("slip." + name), Word: u.Say("slip.enter"), Back: back, ID: typed.Get("id"), At: typed.Get("at"),
		Zone: zoneName(u.Zone),
	}
	if f.ID == "" {
		f.ID = newID(s.House.Clock())
	}
	if warn := u.Say("slip." + name + ".mind"); warn != "slip."+name+".mind" {
		f.Warn = warn
	}
	var faults slip.Faults
	if err != nil && !errors.As(err, &faults) {
		f.Wrong = tell(u, err)
	}
	for _, x := range faults {
		if x.Field == "at" {
			f.WrongAt = slipSays(u, x)
		}
	}
	for _, field := range slip.Fields(slips[name]()) {
		if _, given := known[field.Name]; given {
			for _, value := range known[field.Name] {
				f.Fixed = append(f.Fixed, slipField{Field: field, Value: value})
			}
			continue
		}
		rows := max(1, len(typed[field.Name]))
		if field.Many {
			rows = max(rows, severally)
		}
		for i := range rows {
			one := slipField{Field: field, ID: f.Name + "-" + f.ID[len(f.ID)-6:] + "-" + field.Name, Label: u.Say("slip.field." + field.Name), Value: field.Usual}
			if i > 0 { // the first is enough
				one.Must = false
				one.ID += "-" + string(rune('1'+i))
				one.Label += " " + u.Number(float64(i+1), 0)
			}
			if i < len(typed[field.Name]) {
				one.Value = typed[field.Name][i]
			}
			one.Hint, one.Words = hintOf(u, field), wordsOf(u, field, one.Value)
			if field.Name == "plan" {
				one.Words = s.planNames(v, one.Value)
			}
			if at := slices.IndexFunc(faults, func(x slip.Fault) bool { return x.Field == field.Name }); at >= 0 && i == 0 {
				one.Says = slipSays(u, faults[at])
			}
			if field.Must && i == 0 || one.Says != "" || one.Value != one.Usual {
				f.Shown = append(f.Shown, one)
			} else {
				f.Hidden = append(f.Hidden, one)
			}
		}
	}
	return f
}

// proposed are fields that an address may fill and the reader may change.
var proposed = []string{"plan", "vessel", "box", "kiln", "begin", "order", "due"}

// without is a query without some of its keys.
func without(q url.Values, keys ...string) url.Values {
	out := maps.Clone(q)
	for _, k := range keys {
		delete(out, k)
	}
	return out
}

// newID makes the id of a fact.
func newID(now time.Time) string {
	var r [10]byte
	_, _ = rand.Read(r[:]) // it never fails
	return ledger.ID(now.UnixMilli(), r)
}

// openSlips takes slips in: a page for each, and the place where it is handed
// in from wherever it stands.
func (s *Server) openSlips() {
	for name, made := range slips {
		use := made().Use()
		s.let("GET "+slipsAt+name, use, func(w http.ResponseWriter, v visit) error {
			known := v.URL.Query()
			back := local(known.Get("back"))
			known.Del("back")
			s.setSlip(w, v, s.filled(v, name, back, without(known, proposed...), known, nil), 0)
			return nil
		})
		s.let("POST "+slipsAt+name, use, func(w http.ResponseWriter, v visit) error { return s.enter(w, v, name, made()) })
	}
}

func (s *Server) setSlip(w http.ResponseWriter, v visit, f slipForm, status int) {
	f.Open = true
	s.set(w, v.Request, page{name: "room", title: f.Title, status: status, form: true, data: room{Title: f.Title, API: "/api#op-enter-" + f.Name, Parts: []roomPart{{Slips: []slipForm{f}}}}})
}

// enter enters a slip, or gives it back with what is wrong.
func (s *Server) enter(w http.ResponseWriter, v visit, name string, one slip.Slip) error {
	if err := v.ParseForm(); err != nil {
		return unreadable(err)
	}
	folded(v.PostForm)
	back := local(v.PostFormValue("back"))
	if v.PostForm.Get("do") == asReader {
		v.Units = readerOf(v.Request)
		s.setSlip(w, v, s.filled(v, name, back, nil, v.PostForm, nil), 0)
		return nil
	}
	done, err := s.take(v, one, v.PostForm)
	var faults slip.Faults
	switch {
	case err == nil:
		s.said.keep(done)
		to, parseErr := url.Parse(back)
		if parseErr != nil {
			to = &url.URL{Path: "/"}
		}
		http.Redirect(w, v.Request, withQuery(to, entered, done.Fact.ID), http.StatusSeeOther)
		return nil
	case !errors.As(err, &faults) && !malthouse.IsRefused(err):
		return err
	}
	s.setSlip(w, v, s.filled(v, name, back, nil, v.PostForm, err), http.StatusUnprocessableEntity)
	return nil
}

// take reads a slip and has it entered.
func (s *Server) take(v visit, one slip.Slip, typed url.Values) (malthouse.Done, error) {
	return s.takeInto(s.House, v, one, typed)
}

// takeInto is take for a house that may keep nothing.
func (s *Server) takeInto(h *malthouse.House, v visit, one slip.Slip, typed url.Values) (done malthouse.Done, err error) {
	entry := malthouse.Entry{ID: typed.Get("id")}
	marked, err := inMark(v.Units, one, typed)
	if err == nil {
		err = slip.Fill(one, s.byHouse(v.Units, one, marked))
	}
	if err != nil {
		return done, err
	}
	if at := typed.Get("at"); at != "" {
		if entry.At, err = s.moment(v.Units, at); err != nil {
			return done, err
		}
	}
	return one.Enter(v.Context(), h, v.Actor, entry)
}

// told goes on to a page that says what was entered.
func (s *Server) told(w http.ResponseWriter, v visit, done malthouse.Done, to string, err error) error {
	if err != nil {
		return err
	}
	s.said.keep(done)
	http.Redirect(w, v.Request, fmt.Sprintf("%s?%s=%s", to, entered, done.Fact.ID), http.StatusSeeOther)
	return nil
}

// said remembers what was answered to the latest entries, so that the page that
// follows can say it.
type said struct {
	sync.Mutex
	done  map[string]malthouse.Done
	order []string
}

// mostSaid is how many are remembered.
const mostSaid = 500

func (s *said) keep(d malthouse.Done) {
	s.Lock()
	defer s.Unlock()
	if s.done == nil {
		s.done = map[string]malthouse.Done{}
	}
	if _, there := s.done[d.Fact.ID]; !there {
		s.order = append(s.order, d.Fact.ID)
	}
	s.done[d.Fact.ID] = d
	if len(s.order) > mostSaid {
		delete(s.done, s.order[0])
		s.order = s.order[1:]
	}
}

// of is what was answered to an entry.
func (s *said) of(id string, u words.Units) (out []saying) {
	s.Lock()
	d, found := s.done[id]
	s.Unlock()
	if !found {
		return nil
	}
	out = []saying{{Text: report.Say(d.Said, u) + " " + u.Say("record.entry", "seq", u.Number(float64(d.Fact.Seq), 0), "id", d.Fact.ID)}}
	if d.Again {
		out = append(out, saying{Text: u.Say("record.again")})
	}
	for _, n := range d.Notes {
		out = append(out, saying{Text: report.Say(n, u), Grave: true})
	}
	return out
}
