package web

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"io"
	"maps"
	"net/http"
	"slices"
	"strings"

	"awn/internal/malthouse"
	"awn/internal/report"
	"awn/internal/words"
)

// setOperations are what a house goes by: what it sets, its documents, its
// people. A change says what it changes, so that nobody writes over what they
// have not seen.
var setOperations = []operation{
	{Method: "GET", Path: "/settings", ID: "settings", Summary: "What the house sets.", Schema: "settings/1", Use: malthouse.UsePeople, asked: (*Server).apiSettings},
	{
		Method: "PATCH", Path: "/settings", ID: "set", Summary: "Set some of it: an object of keys and texts. All of it is set, or nothing.", Schema: "settings/1", Use: malthouse.UsePeople, asked: (*Server).apiSet,
		Takes: kindsOfSettings, Changes: true,
	},
	{Method: "GET", Path: "/documents", ID: "documents", Summary: "The documents that the house goes by; those of its own have a sum.", Schema: "documents/1", Use: malthouse.UseLook, asked: (*Server).apiDocuments},
	{
		Method: "GET", Path: "/documents/{kind}", ID: "document", Summary: "A document of the house as it was kept.", Schema: "", Use: malthouse.UseLook, asked: (*Server).apiDocument,
		Ask: askDocument,
	},
	{
		Method: "PUT", Path: "/documents/{kind}", ID: "keep", Summary: "Keep a document that the house goes by from now on.", Schema: "entry/1", Use: malthouse.UseDecide, asked: (*Server).apiKeep,
		Ask:   append(slices.Clone(askDocument), asking{"id", "query", "UUID of the entry, made by whoever sends it.", false}),
		Takes: kindsOfText, Changes: true,
	},
	{Method: "GET", Path: "/people", ID: "people", Summary: "Those whom the house knows, by their ids.", Schema: "people/1", Use: malthouse.UsePeople, asked: (*Server).apiPeople, List: true},
}

// askDocument says which document is meant.
var askDocument = []asking{
	{"kind", "path", "plant, silo, programme or control-points, of which there is one; specification or contract, of which there are several.", true},
	{"name", "query", "Name of a specification or a contract.", false},
}

// unless refuses a change of what is not as whoever changes it has seen it. An
// empty tag is of what is not there yet.
func unless(r *http.Request, tag string) error {
	match, none := r.Header.Values("If-Match"), r.Header.Values("If-None-Match")
	switch {
	case len(match) == 0 && len(none) == 0:
		return refuse(http.StatusPreconditionRequired, "web.match.missing", "")
	case len(match) > 0 && (tag == "" || !among(match, tag, false)), tag != "" && among(none, tag, true):
		return refuse(http.StatusPreconditionFailed, "web.match.changed", "")
	}
	return nil
}

// settingsNow is all that the house sets.
func (s *Server) settingsNow(v visit) (reply, map[string]string, error) {
	set := map[string]string{}
	for _, k := range malthouse.Settings() {
		value, found, err := s.House.Desk.Setting(v.Context(), k.Key)
		if err != nil {
			return reply{}, nil, err
		}
		if !found {
			value = k.Default
		}
		set[k.Key] = value
	}
	a, err := toldJSON(func(w io.Writer) error { return report.SettingsJSON(w, set, s.Version) })
	a.Tag = tagOf(a.Body)
	return a, set, err
}

func (s *Server) apiSettings(v visit) (reply, error) {
	a, _, err := s.settingsNow(v)
	return a, err
}

func (s *Server) apiSet(v visit) (reply, error) {
	data, err := io.ReadAll(v.Body)
	if err != nil {
		return reply{}, unreadable(err)
	}
	var wanted map[string]string
	if err := json.Unmarshal(data, &wanted); err != nil {
		return reply{}, unreadable(err)
	}
	s.changing.Lock()
	defer s.changing.Unlock()
	now, set, err := s.settingsNow(v)
	if err == nil {
		err = unless(v.Request, now.Tag)
	}
	if err != nil {
		return reply{}, err
	}
	var wrong several
	keys := slices.Sorted(maps.Keys(wanted))
	for _, key := range keys {
		var no *malthouse.Refusal
		if errors.As(malthouse.CheckSetting(key, wanted[key]), &no) {
			wrong = append(wrong, problemPart{Code: no.Code, Says: no.Error(), Path: key})
		}
	}
	if wrong != nil {
		return reply{}, wrong
	}
	for _, key := range keys {
		if set[key] == wanted[key] {
			continue
		}
		if _, err := s.House.Settle(v.Context(), v.Actor, malthouse.Entry{}, key, wanted[key]); err != nil {
			return reply{}, err
		}
	}
	if s.Again != nil {
		if err := s.Again(v.Context()); err != nil {
			return reply{}, err
		}
	}
	return s.apiSettings(v)
}

func (s *Server) apiDocuments(v visit) (reply, error) {
	var all []report.KeptDocument
	for _, kind := range malthouse.Documents() {
		text, found, err := s.House.Kept(v.Context(), v.Actor, kind)
		if err != nil {
			return reply{}, err
		}
		one := report.KeptDocument{Kind: kind}
		if found {
			sum := sha256.Sum256(text)
			one.SHA256 = hex.EncodeToString(sum[:])
		}
		all = append(all, one)
	}
	for _, kind := range malthouse.AgreedKinds() {
		agreed, err := s.House.AllAgreed(v.Context(), v.Actor, kind)
		if err != nil {
			return reply{}, err
		}
		for _, x := range agreed {
			all = append(all, report.KeptDocument{Kind: kind, Name: x.Name, SHA256: string(x.Document)})
		}
	}
	return toldJSON(func(w io.Writer) error { return report.KeptJSON(w, all, s.Version) })
}

// keptNow is a document of the house; without one the reply has no tag.
func (s *Server) keptNow(v visit) (reply, error) {
	kind := v.PathValue("kind")
	if exampleOf[kind] == "" {
		return reply{}, errNoPage
	}
	text, found, err := s.keptText(v, kind, v.URL.Query().Get("name"))
	if err != nil || !found {
		return reply{}, err
	}
	return reply{Body: text, Kind: kindYAML, Tag: tagOf(text)}, nil
}

func (s *Server) apiDocument(v visit) (reply, error) {
	a, err := s.keptNow(v)
	if err == nil && a.Tag == "" {
		err = refuse(http.StatusNotFound, "web.document.none", v.PathValue("kind"))
	}
	return a, err
}

func (s *Server) apiKeep(v visit) (reply, error) {
	text, err := io.ReadAll(v.Body)
	if err != nil {
		return reply{}, unreadable(err)
	}
	s.changing.Lock()
	defer s.changing.Unlock()
	now, err := s.keptNow(v)
	if err == nil {
		err = unless(v.Request, now.Tag)
	}
	if err != nil {
		return reply{}, err
	}
	done, err := s.keeps(v, malthouse.Entry{ID: v.URL.Query().Get("id")}, v.PathValue("kind"), v.URL.Query().Get("name"), string(text))
	if err != nil {
		return reply{}, err
	}
	a, err := writtenReply(report.EntryJSON(done, words.Units{}))
	a.Tag = tagOf(text)
	return a, err
}

func (s *Server) apiPeople(v visit) (reply, error) {
	all, err := s.House.Desk.People(v.Context())
	slices.SortFunc(all, func(a, b malthouse.Person) int { return strings.Compare(a.ID, b.ID) })
	return paged(s, v.URL, all, err, named(func(p malthouse.Person) string { return p.ID }), report.PeopleJSON)
}
