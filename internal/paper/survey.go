package paper

import (
	"io/fs"
	"maps"
	"path"
	"slices"
	"strconv"

	"awn/crop"
	"awn/unit"
)

// Survey says which tables hold the samples of a harvest and what is asked of them.
type Survey struct {
	Name    string            `key:"name?" doc:"Name of the survey."`
	Samples string            `key:"samples" doc:"The table of samples beside this document, CSV or XLSX."`
	Before  []string          `key:"before?" max:"20" doc:"Tables of samples of earlier seasons."`
	Frame   string            `key:"frame?" doc:"Table of what was harvested: district, variety, tonnes, farms."`
	Places  string            `key:"places?" doc:"Table of where districts lie: district, east, north."`
	Sheet   string            `key:"sheet?" doc:"Which sheet of each workbook."`
	Columns map[string]string `key:"columns?" match:".+" doc:"What a column holds, by its header, where the usual headers do not say it: district, farm, weight, protein and others."`

	Contracts []SurveyContract   `key:"contracts?" max:"20" doc:"Contracts that the harvest is held against."`
	Elsewhere *GrainPrice        `key:"elsewhere" doc:"What a refused tonne earns elsewhere, in the currency of the contracts."`
	Within    map[string]float64 `key:"plan_within?" match:".+" doc:"How near the mean of a quality shall be known next time: half of its 95 % interval, in the unit of its column."`
	Malt      *SurveyMalt        `key:"malt" doc:"House, programme and specifications to malt it by."`

	Drawn    string `key:"drawn?" one:"by-stratum|by-district" doc:"How farms were drawn. By stratum, if it is not given."`
	Lonely   string `key:"lone_farm?" one:"adjust|remove|average|collapse" doc:"What is done about a stratum of one farm. Adjust, if it is not given."`
	MostSeen bool   `key:"most_sampled?" doc:"Count it that much of the frame was sampled."`
}

// SurveyContract is a contract with what its buyer wants.
type SurveyContract struct {
	Contract string `key:"contract" doc:"The contract beside this document."`
	Wanted   *Mass  `key:"wanted" min:"0 t" doc:"How much is wanted."`
}

// SurveyMalt is how the harvest is malted.
type SurveyMalt struct {
	Piece          string   `key:"piece" doc:"Piece that names house, programme and specification."`
	Specifications []string `key:"specifications?" max:"20" doc:"Further specifications of malt."`
	Pilots         string   `key:"pilots?" doc:"Table of measured pilot malts of this harvest."`
	Lots           *int     `key:"lots" min:"1" max:"100000" doc:"How many lots are malted. 60, if it is not given."`
	Seed           *int     `key:"seed" min:"0" doc:"Seed of the lots; the same gives the same."`
}

// Kind is the word behind the first key.
func (Survey) Kind() string { return "survey/1" }

// Check finds columns that are said to hold what no column holds.
func (s Survey) Check() (faults []Fault) {
	for _, header := range slices.Sorted(maps.Keys(s.Columns)) {
		if _, ok := crop.ColumnNamed(s.Columns[header]); !ok {
			word := s.Columns[header]
			faults = append(faults, Fault{Code: "survey.column.unknown", Path: "columns." + header, Got: word, Nearest: unit.Nearest(word, crop.ColumnWords())})
		}
	}
	return faults
}

// named are the files that the document names, each with the key that names it.
func (s Survey) named() (keys, files []string) {
	add := func(key, file string) {
		if file != "" {
			keys, files = append(keys, key), append(files, file)
		}
	}
	add("samples", s.Samples)
	for i, file := range s.Before {
		add("before["+strconv.Itoa(i)+"]", file)
	}
	add("frame", s.Frame)
	add("places", s.Places)
	for i, c := range s.Contracts {
		add("contracts["+strconv.Itoa(i)+"].contract", c.Contract)
	}
	if m := s.Malt; m != nil {
		add("malt.piece", m.Piece)
		for i, file := range m.Specifications {
			add("malt.specifications["+strconv.Itoa(i)+"]", file)
		}
		add("malt.pilots", m.Pilots)
	}
	return keys, files
}

// LoadSurvey reads a survey whose text is at hand and sees that every file that it
// names lies beside or below it, and that its prices are in one currency. The files
// are left to whoever reads tables.
func LoadSurvey(files fs.FS, name string, data []byte) (Survey, []Input, Faults) {
	l := &loader{files: files, piece: name}
	l.input(Survey{}, name, data)
	doc, r := read[Survey](name, data)
	if l.faults = r.faults.sorted(); len(l.faults) > 0 {
		return doc, nil, l.faults
	}
	keys, named := doc.named()
	for i, file := range named {
		at := path.Join(path.Dir(name), file)
		if path.IsAbs(file) || !fs.ValidPath(at) {
			l.refuse(r, keys[i], Fault{Code: "document.file.name", Got: file})
		} else if _, err := fs.ReadFile(files, at); err != nil {
			l.refuse(r, keys[i], Fault{Code: "document.file.missing", Got: file})
		}
	}
	l.currencies(r, doc)
	return doc, l.inputs, l.faults
}

// currencies refuses contracts that do not count in the money of the others. One
// that cannot be read is reported where it is read in full.
func (l *loader) currencies(r *reader, doc Survey) {
	money := ""
	if doc.Elsewhere != nil {
		money = doc.Elsewhere.Currency
	}
	for i, c := range doc.Contracts {
		at := path.Join(path.Dir(l.piece), c.Contract)
		data, err := fs.ReadFile(l.files, at)
		if err != nil {
			continue
		}
		contract, faults := Read[Contract](at, data)
		switch {
		case len(faults) > 0:
			l.faults = append(l.faults, faults...)
		case money == "":
			money = contract.Price.Currency
		case contract.Price.Currency != money:
			l.refuse(r, "contracts["+strconv.Itoa(i)+"].contract", Fault{Code: "survey.price.currency", Got: contract.Price.Currency, Allowed: []string{money}})
		}
	}
}
