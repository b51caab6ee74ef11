package web

import (
	"net/http"
	"net/url"

	"awn/internal/words"
)

// openReader opens the page on which a reader chooses language and units.
func (s *Server) openReader() {
	s.meet("GET "+readerAt, func(w http.ResponseWriter, r *http.Request) error {
		s.set(w, r, s.readerPage(r, local(r.Form.Get("back")), ""))
		return nil
	})
	s.meet("POST "+readerAt, s.readerChosen)
}

// readerChosen keeps what was chosen and goes back to where the reader was.
func (s *Server) readerChosen(w http.ResponseWriter, r *http.Request) error {
	for _, c := range words.Choices() {
		if word := r.PostForm.Get(choiceField + c.Key); word != "" && !c.Takes(word) {
			p := s.readerPage(r, local(r.PostForm.Get("back")), word)
			p.status = http.StatusUnprocessableEntity
			s.set(w, r, p)
			return nil
		}
	}
	if err := s.keepReader(w, r, chosenIn(readerOf(r), r)); err != nil {
		return err
	}
	http.Redirect(w, r, local(r.PostForm.Get("back")), http.StatusSeeOther)
	return nil
}

// choosing is the page with all choices.
type choosing struct {
	Back, Kept, Wrong string
	Short             short
	Choices           []choiceShown
}

// choiceShown is one choice with its words; one without is typed.
type choiceShown struct {
	Name, Label, Value, Says string
	Options                  []option
}

// option is a word that may be chosen, and how it is shown.
type option struct {
	Value, Label string
	Chosen       bool
}

// short is the form at the foot of every page: language, and the units all at
// once.
type short struct {
	Form             bool   // the page has a form, with which the choice is sent so that nothing typed is lost
	Back, More       string // where to go back to, and where all choices are
	Tongues, Presets []option
}

func (s *Server) readerPage(r *http.Request, back, wrong string) page {
	u := readerOf(r)
	d := choosing{Back: back, Kept: u.Say("reader.cookie"), Short: shortOf(u, back, false)}
	if _, known := asker(r); known && s.Accounts != nil {
		d.Kept = u.Say("reader.kept")
	}
	if wrong != "" {
		d.Wrong = u.Say("reader.zone.wrong", "name", wrong)
	}
	for _, c := range words.Choices() {
		shown := choiceShown{Name: choiceField + c.Key, Label: u.Say("reader." + c.Key), Value: c.Of(u), Options: optionsOf(u, c)}
		if c.Key == "scales" {
			shown.Says = u.Say("reader.scales.says")
		}
		if c.Words == nil && wrong != "" {
			shown.Value = wrong
		}
		d.Choices = append(d.Choices, shown)
	}
	return page{name: "reader", title: u.Say("reader.title"), data: d}
}

func optionsOf(u words.Units, c words.Choice) (out []option) {
	for _, word := range c.Words {
		out = append(out, option{word, u.Say("reader." + c.Key + "." + word), word == c.Of(u)})
	}
	return out
}

// shortOf is the short form for a reader.
func shortOf(u words.Units, back string, form bool) short {
	out := short{Form: form, Back: back, More: readerAt + "?" + url.Values{"back": {back}}.Encode()}
	for _, c := range words.Choices() {
		if c.Key == "tongue" {
			out.Tongues = optionsOf(u, c)
		}
	}
	name := u.PresetName()
	out.Presets = []option{{"metric", u.Say("reader.metric"), name == "metric"}, {"us", u.Say("reader.us"), name == "us"}}
	if name == "" {
		out.Presets = append(out.Presets, option{"", u.Say("reader.own"), true})
	}
	return out
}

// backOf is where the reader is, so that a choice leads back to it; without the
// language that the address asked for, which the choice is to change.
func backOf(r *http.Request) string {
	if r.Method != http.MethodGet {
		return r.URL.Path
	}
	at, q := url.URL{Path: r.URL.Path}, r.URL.Query()
	q.Del("tongue")
	q.Del(entered)
	at.RawQuery = q.Encode()
	return local(at.String())
}
