package paper

import (
	"math"
	"reflect"

	"awn/course"
)

// Piece is one lot in one house by one programme, from one moment on. Each of
// the four is the name of a file, seen from this one, or stands here itself.
type Piece struct {
	Code          string               `key:"code" match:"[A-Z0-9][A-Z0-9-]{0,19}" doc:"The house's own code of the piece. Capital letters, digits and hyphens, at most 20."`
	Start         Moment               `key:"start" doc:"When the piece is cast in, or when the stage begins that it starts with. Local time with its offset."`
	Cast          Mass                 `key:"cast" min:"1 kg" max:"1000 t" doc:"Barley as cast into the steep, as is."`
	Lot           Link[Lot]            `key:"lot" doc:"The lot."`
	Plant         Link[Plant]          `key:"plant" doc:"The malthouse."`
	Programme     Link[Programme]      `key:"programme" doc:"The programme."`
	Specification *Link[Specification] `key:"specification" doc:"What the buyer asks."`
	Vessels       *Vessels             `key:"vessels" doc:"Which vessels of the house. The first of each, if nothing is said."`
	Bed           string               `key:"bed?" one:"house|level" doc:"Whether the bed lies as the house says of its vessels, or perfectly level: the best case. As the house says, if nothing is said."`
	LowerDeck     *LowerDeck           `key:"lower_deck" doc:"What lies on the lower deck of a kiln with two. If nothing is said, the decks are solved to the state that repeats itself."`
	Begin         *Begin               `key:"begin" doc:"A measured state of the grain with which the piece starts at a later stage."`
}

// Vessels names vessels of the house.
type Vessels struct {
	Steep      string `key:"steep?" doc:"Steep by its name."`
	Germinator string `key:"germinator?" doc:"Germination vessel by its name."`
	Kiln       string `key:"kiln?" doc:"Kiln by its name."`
}

// LowerDeck is a piece that is known to lie on the lower deck.
type LowerDeck struct {
	Moisture    Moisture    `key:"moisture" min:"2 % wb" max:"45 % wb" doc:"Mean moisture of that piece."`
	Temperature Temperature `key:"temperature" min:"0 °C" max:"90 °C" doc:"Its temperature."`
}

// Begin is a measured state of the grain.
type Begin struct {
	Stage       string      `key:"stage" one:"germinate|kiln" doc:"Stage with which the piece starts."`
	Moisture    Moisture    `key:"moisture" min:"20 % wb" max:"60 % wb" doc:"Moisture, surface water included."`
	Temperature Temperature `key:"temperature" min:"0 °C" max:"50 °C" doc:"Temperature of the grain."`
	Chit        *Percent    `key:"chit" doc:"Kernels chitted, by number."`
	Age         *Duration   `key:"age" max:"14 d" doc:"Growth age, counted as days at 16 °C and 45 % wb."`
	DryMatter   *Mass       `key:"dry_matter" min:"0.5 kg" max:"1000 t" doc:"Dry matter of the piece."`
	DryLoad     *AreaLoad   `key:"dry_load" min:"10 kg/m2" max:"2000 kg/m2" doc:"Dry matter per floor area."`
	Bed         *Bed        `key:"bed" doc:"Depth and density of the bed."`

	_ struct{} `rule:"one of dry_matter dry_load bed"`
}

// Bed is a measured bed.
type Bed struct {
	Depth   Length  `key:"depth" min:"3 cm" max:"3 m" doc:"Mean depth."`
	Density Density `key:"dry_density" min:"150 kg/m3" max:"700 kg/m3" doc:"Dry matter per volume of the bed."`
}

// Link is a document by the name of its file, or itself.
type Link[T Document] struct {
	File   string
	Inline *T
}

func (Link[T]) target() reflect.Type { return reflect.TypeFor[T]() }

// Kind is the word behind the first key.
func (Piece) Kind() string { return "piece/1" }

// begin is the measured state on a floor of that area.
func (b *Begin) begin(areaM2 float64) *course.Begin {
	if b == nil {
		return nil
	}
	out := &course.Begin{
		Stage: course.Germinate, Moisture: b.Moisture.In("% wb") / 100, TempC: b.Temperature.In("°C"),
		Chit: b.Chit.In("%") / 100, AgeD: b.Age.In("d"),
	}
	if b.Stage == "kiln" {
		out.Stage = course.Kiln
	}
	switch {
	case b.DryMatter != nil:
		out.DryKg = b.DryMatter.In("kg")
	case b.DryLoad != nil:
		out.DryKg = b.DryLoad.In("kg/m2") * areaM2
	case b.Bed != nil:
		out.DryKg = b.Bed.Depth.In("m") * b.Bed.Density.In("kg/m3") * areaM2
	default:
		out.DryKg = math.NaN()
	}
	return out
}
