package web

import (
	"archive/zip"
	"bytes"
	"cmp"
	"context"
	"encoding/base64"
	"encoding/csv"
	"errors"
	"html/template"
	"io"
	"io/fs"
	"maps"
	"net/http"
	"path"
	"slices"
	"strconv"
	"sync"
	"time"

	"awn/examples"
	"awn/internal/paper"
	"awn/internal/report"
)

// cropAt is where a harvest is reported on.
const cropAt = "/crop"

// sheetSlot is a file that the page of a harvest takes, and the place of the
// survey document that names it.
type sheetSlot struct{ Field, Place, Accept string }

const tableKinds = ".csv,.xlsx,text/csv"

var sheetSlots = []sheetSlot{
	{"samples", "samples", tableKinds}, {"before", "before[0]", tableKinds}, {"frame", "frame", tableKinds}, {"places", "places", tableKinds},
	{"first", "contracts[0].contract", ".yaml,.yml"}, {"second", "contracts[1].contract", ".yaml,.yml"}, {"pilots", "malt.pilots", tableKinds},
}

// typedSlots are what is typed, as the document has it.
var typedSlots = []struct{ field, place string }{
	{"wanted-first", "contracts[0].wanted"}, {"wanted-second", "contracts[1].wanted"}, {"elsewhere", "elsewhere"},
}

// harvest is a survey as the page asks for it: a document, and the files that it
// names.
type harvest struct {
	Slots  []sentSheet
	Typed  map[string]string
	Houses bool // the house has loads of its own
	Own    bool // and they are the samples
	Left   int  // loads that say nothing
	Malt   bool
	Name   string
	Faults []string
	Body   template.HTML

	files   surveyFiles
	text    []byte // the survey document
	changed bool   // it is not that of the example
}

// sentSheet is a file that was sent, and is sent again with the form.
type sentSheet struct {
	sheetSlot
	Name, Text string
}

// surveyFiles are files that were sent; the others are those of the examples.
type surveyFiles map[string][]byte

// Open is here for fs.FS; everything is read whole.
func (f surveyFiles) Open(name string) (fs.File, error) { return examples.Files.Open(name) }

// ReadFile reads one file.
func (f surveyFiles) ReadFile(name string) ([]byte, error) {
	if data, sent := f[name]; sent {
		return data, nil
	}
	return fs.ReadFile(examples.Files, name)
}

// crop reports on a harvest.
func (s *Server) crop(r *http.Request) (page, error) {
	acc := s.account(r)
	d := &harvest{}
	a, err := s.harvested(r, d)
	var wrong *tableFaults
	var faults paper.Faults
	switch {
	case errors.As(err, &wrong):
		d.Faults = wrong.lines
	case errors.As(err, &faults):
		for _, f := range faults {
			d.Faults = append(d.Faults, f.Error())
		}
	case err != nil:
		return page{}, err
	default:
		if d.Body, err = set(a.Live(), cropAt+"/table.csv"); err != nil {
			return page{}, err
		}
	}
	return page{name: "crop", title: acc.Units.Say("page.crop.title"), part: "outcome", data: d}, nil
}

// cropFile gives a file of a harvest by its name.
func (s *Server) cropFile(r *http.Request) (file, error) {
	d := &harvest{}
	a, err := s.harvested(r, d)
	if err != nil {
		return file{}, err
	}
	switch name := r.PathValue("file"); name {
	case "report.html":
		return file{name, kindHTML, a.HTML}, nil
	case "report.pdf":
		return file{name, kindPDF, func(w io.Writer) error { return a.PDF(w, report.Print{Paper: paperOf(a.Units), At: time.Now()}) }}, nil
	case "harvest.json":
		return file{name, kindJSON, a.JSON}, nil
	case "harvest.csv":
		return file{name, kindCSV, a.CSV}, nil
	case "documents.zip":
		return file{name, kindZIP, d.zip}, nil
	case "table.csv":
		return tableFile(a.Live(), r)
	}
	return file{}, errNoPage
}

// harvested reads what the form asks for and reports on it.
func (s *Server) harvested(r *http.Request, d *harvest) (report.CropAccount, error) {
	if err := d.read(r); err != nil {
		return report.CropAccount{}, err
	}
	d.Houses = s.House != nil
	if d.Own = d.Houses && r.FormValue("of") == "own"; d.Own {
		if err := s.ownLoads(r, d); err != nil {
			return report.CropAccount{}, err
		}
	}
	if err := d.write(); err != nil {
		return report.CropAccount{}, err
	}
	to := s.account(r)
	if len(d.files) > 0 || d.changed {
		return surveyed(r.Context(), d.files, examples.FirstSurvey, d.text, to)
	}
	a, err := exampleHarvest()
	a.Units, a.Version = to.Units, to.Version
	return a, err
}

// exampleHarvest is the example, which is worked out once: its figures are the
// same for every reader.
var exampleHarvest = sync.OnceValues(func() (report.CropAccount, error) {
	text, err := fs.ReadFile(examples.Files, examples.FirstSurvey)
	if err != nil {
		return report.CropAccount{}, err
	}
	return surveyed(context.Background(), surveyFiles{}, examples.FirstSurvey, text, report.Report{})
})

// read reads the form: files, those that were sent before, and what is typed.
func (d *harvest) read(r *http.Request) error {
	d.files, d.Typed, d.Malt = surveyFiles{}, map[string]string{}, true
	for _, slot := range sheetSlots {
		d.Slots = append(d.Slots, sentSheet{sheetSlot: slot})
	}
	if r.Method != http.MethodPost {
		return nil
	}
	err := r.ParseForm()
	if err == nil {
		err = r.ParseMultipartForm(mostBytes)
	}
	if err != nil && !errors.Is(err, http.ErrNotMultipart) {
		return unreadable(err)
	}
	for i := range d.Slots {
		if err := d.Slots[i].read(r, d.files); err != nil {
			return err
		}
	}
	for _, t := range typedSlots {
		d.Typed[t.field] = r.PostFormValue(t.field)
	}
	d.Malt = r.PostFormValue("malt") != "" || r.PostFormValue("asked") == ""
	return nil
}

// read takes one file out of a form.
func (s *sentSheet) read(r *http.Request, files surveyFiles) error {
	s.Text, s.Name = r.PostFormValue("sent-"+s.Field), r.PostFormValue("name-"+s.Field)
	f, head, err := r.FormFile(s.Field)
	switch {
	case err == nil:
		defer func() { _ = f.Close() }() // nothing was written
		data, err := io.ReadAll(f)
		if err != nil {
			return unreadable(err)
		}
		s.Text, s.Name = base64.StdEncoding.EncodeToString(data), head.Filename
	case !errors.Is(err, http.ErrMissingFile) && !errors.Is(err, http.ErrNotMultipart):
		return unreadable(err)
	}
	if s.Text == "" {
		return nil
	}
	data, err := base64.StdEncoding.DecodeString(s.Text)
	if err != nil {
		return unreadable(err)
	}
	files[s.file()] = data
	return nil
}

// file is the name by which the document knows a file that was sent.
func (s sentSheet) file() string {
	ending := path.Ext(s.Name)
	if !slices.Contains([]string{".csv", ".xlsx", ".yaml", ".yml"}, ending) {
		ending = ".csv"
	}
	return "sent-" + s.Field + ending
}

// ownLoads are the samples of a house: what came in.
func (s *Server) ownLoads(r *http.Request, d *harvest) error {
	who, _ := asker(r)
	rows, left, err := s.House.Harvest(r.Context(), who)
	if err != nil {
		return ofRecord(err)
	}
	var b bytes.Buffer
	if err := csv.NewWriter(&b).WriteAll(rows); err != nil {
		return err
	}
	d.Left = left
	d.files[ownSheet] = b.Bytes()
	return nil
}

// ownSheet is the name of the table of a house's own loads.
const ownSheet = "loads.csv"

// write makes the survey document of what was sent: that of the example, with
// what was sent in the place of what it names. Samples of somebody else's harvest
// leave nothing of it but the contracts and the house that it is malted in.
func (d *harvest) write() (err error) {
	if d.text, err = fs.ReadFile(examples.Files, examples.FirstSurvey); err != nil {
		return err
	}
	v := paper.ValuesOf(d.text)
	before := maps.Clone(v)
	samples := d.Slots[0]
	if d.Own || samples.Text != "" {
		for _, place := range []string{"before[0]", "frame", "places", "malt.pilots", "elsewhere", "contracts[0].wanted", "contracts[1].wanted", "plan_within.protein"} {
			delete(v, place)
		}
		v["samples"], v["name"] = ownSheet, ownSheet
	}
	if d.Slots[4].Text != "" || d.Slots[5].Text != "" {
		for _, place := range []string{"contracts[0].contract", "contracts[0].wanted", "contracts[1].contract", "contracts[1].wanted", "elsewhere"} {
			delete(v, place)
		}
	}
	for _, s := range d.Slots {
		if s.Text != "" && !(d.Own && s.Field == "samples") {
			v[s.Place] = s.file()
		}
	}
	if samples.Text != "" && !d.Own {
		v["name"] = cmp.Or(samples.Name, samples.file())
	}
	for _, t := range typedSlots {
		if text := d.Typed[t.field]; text != "" {
			v[t.place] = text
		}
	}
	if !d.Malt {
		delete(v, "malt.piece")
		delete(v, "malt.pilots")
	}
	d.Name = v["name"]
	if d.changed = !maps.Equal(v, before); !d.changed {
		return nil
	}
	if v["contracts[0].contract"] == "" { // a list has no gap
		for _, end := range []string{"contract", "wanted"} {
			v["contracts[0]."+end] = v["contracts[1]."+end]
			delete(v, "contracts[1]."+end)
		}
	}
	maps.DeleteFunc(v, func(_, text string) bool { return text == "" })
	d.text, _ = paper.Write("survey/1", v) // the kind is known
	return nil
}

// zip writes the document with the files that were sent.
func (d *harvest) zip(w io.Writer) error {
	z := zip.NewWriter(w)
	all := maps.Clone(map[string][]byte(d.files))
	all[examples.FirstSurvey] = d.text
	v := paper.ValuesOf(d.text)
	for _, name := range v {
		if data, err := d.files.ReadFile(name); err == nil {
			all[name] = data
		}
	}
	if v["malt.piece"] != "" {
		_, inputs, _ := paper.Load(examples.Files, v["malt.piece"])
		for _, in := range inputs {
			all[in.File] = in.Text
		}
	}
	for _, name := range slices.Sorted(maps.Keys(all)) {
		f, err := z.Create(name)
		if err != nil {
			return err
		}
		if _, err := f.Write(all[name]); err != nil {
			return err
		}
	}
	return z.Close()
}

// LeftSays tells how many loads say nothing.
func (d *harvest) LeftSays() string { return strconv.Itoa(d.Left) }
