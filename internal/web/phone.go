package web

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"io/fs"
	"net/http"
	"slices"

	"awn/internal/words"
)

// Where a phone finds what it keeps of the house for when the network is gone.
const (
	workerAt = "/worker.js"
	shellAt  = "/shell"
)

// waiting is the line that says what waits on a phone, with all that its script
// says.
type waiting struct {
	Of         string // what the script goes by, as JSON
	Who, Whose string // is signed in: by the name at the keyboard, and in full
	Shell      bool   // the page is the empty one
}

// waitingOf is the line of a page; nil of a house that keeps no record.
func (s *Server) waitingOf(r *http.Request, shell bool) (*waiting, error) {
	if s.House == nil {
		return nil, nil
	}
	u := readerOf(r)
	of, err := json.Marshal(map[string]any{"words": waitWords(u), "zone": zoneName(u.In(s.House.Zone)), "shell": s.shellOf(u)})
	a, _ := asker(r)
	return &waiting{Of: string(of), Who: a.ID, Whose: whoOf(r), Shell: shell}, err
}

// waitWords are what the script says.
func waitWords(u words.Units) map[string]string {
	return map[string]string{
		"own": u.Say("phone.own"), "own.one": u.Say("phone.own.one"), "other": u.Say("phone.other"), "other.one": u.Say("phone.other.one"),
		"which": u.Say("phone.which"), "send": u.Say("phone.send"), "waits": u.Say("phone.waits"), "kept": u.Say("phone.kept"),
		"sign-in": u.Say("phone.sign-in"), "sign-in.word": u.Say("door.sign-in"), "refused": u.Say("phone.refused"), "correct": u.Say("phone.correct"),
		"discard": u.Say("phone.discard"), "discard.sure": u.Say("phone.discard.sure"), "sent": u.Say("phone.sent"), "sent.one": u.Say("phone.sent.one"),
		"whose": u.Say("phone.whose"), "nobody": u.Say("phone.nobody"),
	}
}

// shellOf is what a phone keeps of the house: the empty page and the files that
// dress it, under a mark that changes with them.
func (s *Server) shellOf(u words.Units) map[string]any {
	of := s.shellMark
	if u != (words.Units{}) {
		sum := sha256.Sum256([]byte(u.Chosen()))
		of += "-" + hex.EncodeToString(sum[:4])
	}
	return map[string]any{"of": of, "files": s.shellFiles}
}

// openPhone sets up what a phone keeps.
func (s *Server) openPhone() error {
	sum := sha256.New()
	for _, files := range []fs.FS{static, templates} {
		err := fs.WalkDir(files, ".", func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			text, err := fs.ReadFile(files, path)
			if err != nil {
				return err
			}
			_, _ = sum.Write(append([]byte(path), text...)) // a hash takes everything
			if files == fs.FS(static) && path != "static/worker.js" {
				s.shellFiles = append(s.shellFiles, "/"+path)
			}
			return nil
		})
		if err != nil {
			return err
		}
	}
	s.shellFiles = append(s.shellFiles, "/static/report.css", shellAt)
	slices.Sort(s.shellFiles)
	s.shellMark = hex.EncodeToString(sum.Sum(nil)[:6])
	worker, err := fs.ReadFile(static, "static/worker.js")
	if err != nil {
		return err
	}
	s.meet("GET "+workerAt, func(w http.ResponseWriter, _ *http.Request) error {
		w.Header().Set("Cache-Control", "no-cache") // asked anew each time: it is what hands out the rest
		file{name: "worker.js", kind: "text/javascript; charset=utf-8"}.send(w, bytes.NewBuffer(worker))
		return nil
	})
	s.meet("GET "+shellAt, s.shell)
	return nil
}

// shell is the floor without anything of the record: a reading and an act of any
// piece. It is the same for whoever asks, in the reader's units.
func (s *Server) shell(w http.ResponseWriter, r *http.Request) error {
	nobody := r.WithContext(context.WithValue(r.Context(), visitor{}, nil))
	v := visit{Request: nobody, Units: readerOf(r)}
	u := v.Units
	act := s.form(v, "act", "/floor", nil)
	act.Open = true
	s.show(w, nobody, room{Title: u.Say("phone.shell"), Under: u.Say("phone.shell.under"), Parts: []roomPart{
		{Whose: true},
		{Heading: u.Say("slip.read"), Slips: []slipForm{s.quick(v, s.form(v, "read", "/floor", nil))}},
		{Heading: u.Say("slip.act"), Says: []saying{{Text: u.Say("floor.mind"), Grave: true}}, Slips: []slipForm{act}},
	}}, http.StatusOK)
	return nil
}
