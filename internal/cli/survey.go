package cli

import (
	"fmt"

	"awn/internal/house"
	"awn/internal/report"
	"awn/internal/survey"
)

type surveyCommand struct {
	Samples   string   `arg:"" optional:"" placeholder:"SAMPLES.csv" help:"The samples, CSV or XLSX, or a document that names them; - is standard input."`
	Before    []string `sep:"none" placeholder:"FILE" help:"Samples of an earlier season; may stand again."`
	Frame     string   `placeholder:"FILE" help:"What was harvested: district, variety, tonnes, farms."`
	Places    string   `placeholder:"FILE" help:"Where districts lie: district, east, north."`
	Contract  []string `sep:"none" placeholder:"FILE=T" help:"A contract and the tonnes wanted; may stand again."`
	Elsewhere float64  `placeholder:"PRICE" help:"What a refused tonne earns elsewhere."`
	Within    []string `sep:"none" placeholder:"QUALITY=X" help:"Plan for a mean within X, such as protein=0.2."`
	Malt      string   `placeholder:"PIECE.yaml" help:"House, programme and specification to malt it by."`
	Spec      []string `sep:"none" placeholder:"FILE" help:"A further specification of malt; may stand again."`
	Pilots    string   `placeholder:"FILE" help:"Measured pilot malts of this harvest."`
	Lots      *int     `placeholder:"N" help:"How many lots are malted: 60, if nothing is said."`
	Seed      *uint64  `placeholder:"S" help:"Seed of the lots: 1, if nothing is said. The same gives the same."`

	Column []string `sep:"none" placeholder:"NAME=WHAT" help:"What a column holds: Kreis=district."`
	Sheet  string   `placeholder:"NAME" help:"Which sheet of a workbook."`
	Drawn  string   `enum:"by-stratum,by-district," default:"" placeholder:"HOW" help:"How farms were drawn: by-stratum, the usual way, or by-district."`
	Lonely string   `enum:"adjust,remove,average,collapse," default:"" placeholder:"HOW" help:"A lone farm: adjust, the usual way, remove, average or collapse."`
	Rest   bool     `help:"Count it that much of the frame was sampled."`

	JSON bool   `xor:"form" help:"Write everything as JSON."`
	CSV  bool   `xor:"form" help:"Write the tables as CSV, a figure in each row."`
	HTML string `placeholder:"FILE" help:"Write the report, a file that opens anywhere."`
	printing
	telling
}

// Help says what samples are.
func (c *surveyCommand) Help() string {
	return `  awn survey                          the example that is built in
  awn survey SAMPLES.csv
  awn survey SAMPLES.csv --frame FRAME.csv --before 2025.csv
  awn survey SAMPLES.csv --contract premium.yaml=35000 --elsewhere 170
  awn survey SAMPLES.csv --malt PIECE.yaml --pilots PILOTS.csv
  awn survey SAMPLES.csv --within protein=0.2 --html report.html
  awn survey SURVEY.yaml --pdf report.pdf

A row for each sample: district, variety, farm (a code), the tonnes it stands
for (“weight”, or “tonnes” it was taken from, or “area”), season, loads if it is
mixed of several; and a column for each quality: moisture, protein, plump,
thin, test weight, germination, germination 8ml, capacity, sprouted, falling
number, stirring number, skinned, don. A unit, or the slot of a sieve, may stand
behind: “don [µg/kg]”, “plump [6/64 in]”. A cell that is not known stays empty;
what lies below what the method sees is written <0.2. Rows may be of several
seasons; the last is reported. Several rows of a place are its outline.

A document names the tables, contracts and house in one place; flags win over
it. “awn schema survey” says what may stand in it, “awn init DIR” writes one.

What is wrong with the samples comes first. Figures of fewer than five farms are
withheld, and no farm is ever named.`
}

// Run reports on a harvest.
func (c *surveyCommand) Run(j *job) error {
	if c.Lots != nil && *c.Lots < 1 {
		return &lineError{fmt.Sprintf("--lots %d: there must be one lot or more.", *c.Lots)}
	}
	r := &surveyReading{c: c, j: j}
	o, err := r.order()
	if err != nil {
		return err
	}
	m := j.meter()
	files := r.files()
	files.Told = func(done, of int) { m.tell(done, of, "lots") }
	a := report.CropAccount{Units: c.reader(), Version: house.ReadVersion(), Inputs: r.inputs}
	err = survey.Report(j.ctx, o, files, &a)
	m.end()
	if err != nil {
		return r.refused(o, err)
	}
	return forms{c.JSON, c.CSV, c.HTML, c.printing}.write(j, a)
}
