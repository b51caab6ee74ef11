package cli

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"

	"awn/crop"
	"awn/examples"
	"awn/internal/house"
	"awn/internal/paper"
	"awn/internal/report"
	"awn/internal/table"
	"awn/variety"
)

type surveyCommand struct {
	Samples   string   `arg:"" optional:"" placeholder:"SAMPLES.csv" help:"The samples, CSV or XLSX; - is standard input."`
	Before    []string `sep:"none" placeholder:"FILE" help:"Samples of an earlier season; may stand again."`
	Frame     string   `placeholder:"FILE" help:"What was harvested: district, variety, tonnes, farms."`
	Places    string   `placeholder:"FILE" help:"Where districts lie: district, east, north."`
	Contract  []string `sep:"none" placeholder:"FILE=T" help:"A contract and the tonnes wanted; may stand again."`
	Elsewhere float64  `placeholder:"PRICE" help:"What a refused tonne earns elsewhere."`
	Within    []string `sep:"none" placeholder:"QUALITY=X" help:"Plan for a mean within X, such as protein=0.2."`
	Malt      string   `placeholder:"PIECE.yaml" help:"House, programme and specification to malt it by."`
	Spec      []string `sep:"none" placeholder:"FILE" help:"A further specification of malt; may stand again."`
	Pilots    string   `placeholder:"FILE" help:"Measured pilot malts of this harvest."`
	Lots      int      `default:"60" placeholder:"N" help:"How many lots are malted."`
	Seed      uint64   `default:"1" placeholder:"S" help:"Seed of the lots; the same gives the same."`

	Column []string `sep:"none" placeholder:"NAME=WHAT" help:"What a column holds: Kreis=district."`
	Sheet  string   `placeholder:"NAME" help:"Which sheet of a workbook."`
	Drawn  string   `enum:"by-stratum,by-district" default:"by-stratum" placeholder:"HOW" help:"How farms were drawn: by-stratum or by-district."`
	Lonely string   `enum:"adjust,remove,average,collapse" default:"adjust" placeholder:"HOW" help:"A lone farm: adjust, remove, average or collapse."`
	Rest   bool     `help:"Count it that much of the frame was sampled."`

	JSON bool   `xor:"form" help:"Write everything as JSON."`
	CSV  bool   `xor:"form" help:"Write the tables as CSV, a figure in each row."`
	HTML string `placeholder:"FILE" help:"Write the report, a file that opens anywhere."`
	printing
	Units string `enum:"metric,us" default:"metric" env:"AWN_UNITS" placeholder:"WHICH" help:"Units: metric or us."`
}

// Help says what samples are.
func (c *surveyCommand) Help() string {
	return `  awn survey                          the example that is built in
  awn survey SAMPLES.csv
  awn survey SAMPLES.csv --frame FRAME.csv --before 2025.csv
  awn survey SAMPLES.csv --contract premium.yaml=35000 --elsewhere 170
  awn survey SAMPLES.csv --malt PIECE.yaml --pilots PILOTS.csv
  awn survey SAMPLES.csv --within protein=0.2 --html report.html

A row for each sample: district, variety, farm (a code), the tonnes it stands
for (“weight”, or “tonnes” it was taken from, or “area”), season, loads if it is
mixed of several; and a column for each quality: moisture, protein, plump,
thin, test weight, germination, germination 8ml, capacity, sprouted, falling
number, stirring number, skinned, don. A unit, or the slot of a sieve, may stand
behind: “don [µg/kg]”, “plump [6/64 in]”. A cell that is not known stays empty;
what lies below what the method sees is written <0.2. Rows may be of several
seasons; the last is reported. Several rows of a place are its outline.

What is wrong with the samples comes first. Figures of fewer than five farms are
withheld, and no farm is ever named.`
}

// Run reports on a harvest.
func (c *surveyCommand) Run(j *job) error {
	if c.Lots < 1 {
		return &lineError{fmt.Sprintf("--lots %d: there must be one lot or more.", c.Lots)}
	}
	r := &surveyReading{c: c, files: os.DirFS("."), j: j}
	if c.Samples == "" {
		j.note("awn: no samples are named; this is the example, %s. “awn init DIR” writes it out.", examples.FirstSurvey)
		c.example()
		r.files, r.inside = examples.Files, true
	}
	survey, question, err := r.all()
	if err != nil {
		return err
	}
	a := report.CropAccount{Name: r.name, Summary: survey.Summarise(question), Lonely: c.Lonely, Units: unitsOf(c.Units), Version: house.ReadVersion(), Inputs: r.inputs, Seed: c.Seed}
	if c.Malt != "" {
		if a.Malting, err = r.malt(survey, question.Buyers); err != nil {
			return err
		}
	}
	if err := writeFile(j, c.HTML, "report", a.HTML); err != nil {
		return err
	}
	if err := c.print(j, "report to print", a.PDF); err != nil {
		return err
	}
	switch {
	case c.JSON:
		return a.JSON(j.out)
	case c.CSV:
		return a.CSV(j.out)
	}
	return a.Text(j.out)
}

// example fills in what goes with the example.
func (c *surveyCommand) example() {
	c.Samples, c.Before, c.Frame = examples.FirstSurvey, []string{examples.SurveyBefore}, examples.SurveyFrame
	c.Places, c.Pilots, c.Malt = examples.SurveyPlaces, examples.SurveyPilots, examples.First
	c.Contract = []string{examples.SurveyContract + "=60000", examples.SurveyWide + "=90000"}
	c.Elsewhere, c.Within = 165, []string{"protein=0.15"}
}

// surveyReading reads all that a survey rests on.
type surveyReading struct {
	c      *surveyCommand
	j      *job
	files  fs.FS
	inside bool // the files are built in
	name   string
	inputs []report.Input
}

// all reads the samples and what goes with them.
func (r *surveyReading) all() (*crop.Survey, crop.Question, error) {
	c := r.c
	q := crop.Question{ElsewhereT: math.NaN()}
	if c.Elsewhere > 0 {
		q.ElsewhereT = c.Elsewhere
	}
	q.Lonely = crop.Lonely(c.Lonely)
	if c.Drawn == "by-district" {
		q.Clusters = crop.FarmInDistrict
	}
	if c.Rest {
		q.Rest = crop.BinsRest
	}
	r.name = filepath.Base(c.Samples)
	if c.Samples == "-" {
		r.name = "stdin"
	}
	survey, err := r.samples(c.Samples)
	if err != nil {
		return nil, q, err
	}
	if c.Frame != "" {
		if err := r.table(c.Frame, survey.ReadFrame); err != nil {
			return nil, q, err
		}
	}
	for _, name := range c.Before {
		before, err := r.samples(name)
		if err != nil {
			return nil, q, err
		}
		survey.Add(before)
	}
	if len(c.Before) > 0 && len(survey.Seasons()) < 2 {
		return nil, q, &refusal{fmt.Errorf("%s is of the same season as %s: give each its “season” column", c.Before[0], r.name)}
	}
	if c.Places != "" {
		if err := r.table(c.Places, survey.ReadPlaces); err != nil {
			return nil, q, err
		}
	}
	if q.Buyers, err = r.buyers(); err != nil {
		return nil, q, err
	}
	q.Aims, err = aims(survey, c.Within)
	return survey, q, err
}

// read reads a file, from the disk, from standard input or from the program.
func (r *surveyReading) read(name string) ([]byte, error) {
	var data []byte
	var err error
	switch {
	case r.inside:
		data, err = fs.ReadFile(r.files, name)
	case name == "-":
		data, err = io.ReadAll(r.j.in)
	default:
		if err := readable(name); err != nil {
			return nil, err
		}
		data, err = os.ReadFile(name)
	}
	sum := sha256.Sum256(data)
	r.inputs = append(r.inputs, report.Input{Kind: "table", SHA256: hex.EncodeToString(sum[:])})
	return data, err
}

// table reads a table into whatever takes its rows.
func (r *surveyReading) table(name string, into func([][]string) []crop.Fault) error {
	data, err := r.read(name)
	if err != nil {
		return err
	}
	sheet, err := table.Read(bytes.NewReader(data), r.c.Sheet)
	if err != nil {
		return &refusal{fmt.Errorf("%s: %s", name, unreadable(err))}
	}
	if faults := into(sheet.Cells); len(faults) > 0 {
		told := make([]variety.Fault, len(faults))
		for i, f := range faults {
			told[i] = variety.Fault(f)
		}
		return &tableFaults{name, sheet, told}
	}
	r.inputs[len(r.inputs)-1].Kind = "table"
	return nil
}

// samples reads samples.
func (r *surveyReading) samples(name string) (*crop.Survey, error) {
	roles, err := columnRoles(r.c.Column)
	if err != nil {
		return nil, err
	}
	var survey *crop.Survey
	err = r.table(name, func(rows [][]string) []crop.Fault {
		s, faults := crop.Read(rows, roles)
		survey = s
		return faults
	})
	return survey, err
}

// columnRoles reads what the user says of columns.
func columnRoles(texts []string) (map[string]crop.Column, error) {
	roles := map[string]crop.Column{}
	for _, text := range texts {
		name, what, ok := strings.Cut(text, "=")
		if !ok || name == "" || what == "" {
			return nil, &lineError{fmt.Sprintf("--column %s: write it as NAME=WHAT, such as Kreis=district.", text)}
		}
		if roles[name], ok = crop.ColumnNamed(what); !ok {
			return nil, &lineError{fmt.Sprintf("--column %s: “%s” is nothing that a column holds.", text, what)}
		}
	}
	return roles, nil
}

// buyers reads the contracts, each with the tonnes wanted behind it.
func (r *surveyReading) buyers() ([]crop.Buyer, error) {
	var out []crop.Buyer
	for _, text := range r.c.Contract {
		name, tonnes, told := strings.Cut(text, "=")
		b := crop.Buyer{WantedT: math.NaN()}
		if told {
			x, err := strconv.ParseFloat(tonnes, 64)
			if err != nil || !(x > 0) || math.IsInf(x, 0) {
				return nil, &lineError{fmt.Sprintf("--contract %s: “%s” is no number of tonnes.", text, tonnes)}
			}
			b.WantedT = x
		}
		data, err := r.read(name)
		if err != nil {
			return nil, err
		}
		doc, faults := paper.Read[paper.Contract](name, data)
		if len(faults) > 0 {
			return nil, faults
		}
		r.inputs[len(r.inputs)-1].Kind = doc.Kind()
		contract := doc.Contract()
		b.Contract = &contract
		out = append(out, b)
	}
	return out, nil
}

// aims reads how well means shall be known next time.
func aims(s *crop.Survey, texts []string) ([]crop.Aim, error) {
	var out []crop.Aim
	for _, text := range texts {
		name, half, _ := strings.Cut(text, "=")
		x, err := strconv.ParseFloat(half, 64)
		a, ok := s.AimOf(name, x)
		if err != nil || !(x > 0) || !ok {
			return nil, &lineError{fmt.Sprintf("--within %s: name a quality of the samples and a number above 0, such as protein=0.2.", text)}
		}
		out = append(out, a)
	}
	return out, nil
}

// malt takes lots of the harvest through the standard programme.
func (r *surveyReading) malt(s *crop.Survey, buyers []crop.Buyer) (*crop.Malting, error) {
	name := r.c.Malt
	if r.inside {
		name = ""
	}
	quiet := *r.j
	quiet.quiet = true
	piece, inputs, err := load(&quiet, name)
	if err != nil {
		return nil, err
	}
	r.inputs = append(r.inputs, inputs...)
	m := r.j.meter()
	defer m.end()
	q := crop.MaltQuestion{Piece: piece, Lots: r.c.Lots, Seed: r.c.Seed, Workers: runtime.GOMAXPROCS(0), Told: func(done, of int) { m.tell(done, of, "lots") }}
	for _, name := range r.c.Spec {
		data, err := r.read(name)
		if err != nil {
			return nil, err
		}
		doc, faults := paper.Read[paper.Specification](name, data)
		if len(faults) > 0 {
			return nil, faults
		}
		q.Others = append(q.Others, doc.Specification())
	}
	out, err := s.Malt(r.j.ctx, buyers, q)
	if err != nil || r.c.Pilots == "" {
		return out, err
	}
	return out, r.table(r.c.Pilots, func(rows [][]string) []crop.Fault {
		pilots, faults := crop.ReadPilots(rows)
		out.Compare(pilots)
		return faults
	})
}
