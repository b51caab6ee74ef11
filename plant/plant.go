// Package plant says what a malthouse is made of: vessels, fans, burners,
// weather, water, prices. It holds types and the checks that belong to one of
// them alone; what air and grain do in them is computed elsewhere.
package plant

import "awn/barley"

// House is one malthouse. Temperatures are °C, fractions 0 to 1.
type House struct {
	Name      string
	Place     string
	Zone      string // IANA time zone
	AltitudeM float64

	Cleaning    Cleaning
	Steeps      []Steep
	Germinators []Germinator
	Kilns       []Kiln
	Dressing    Dressing
	MaltStore   MaltStore
	Water       Water

	Weather Weather
	Prices  Prices
	Factors EmissionFactors
	// Parameters replaces defaults of the parameter tables by key.
	Parameters map[string]float64
}

// Cleaning is what happens between the pit and the steep.
type Cleaning struct {
	ScreenMM     float64 // slot under which barley is screened out; 0 means none
	GradeMM      float64 // slot under which what is left is kept apart as a second grade; 0 means none
	DustShare    float64 // of barley as received, drawn off by air
	ForeignShare float64 // of barley as received: straw, stones, other seeds
	FeedPriceT   float64 // what screenings fetch per tonne
	SecondPriceT float64 // and the second grade
}

// Steep is one steeping vessel.
type Steep struct {
	Name        string
	CapacityT   float64 // barley as cast
	VolumeM3    float64 // up to the overflow
	DepthM      float64 // of the drained bed at its mean
	Conical     bool
	FillH       float64
	DrainH      float64
	TransferH   float64         // to cast the grain out
	AerationM3H float64         // most compressed air, for the whole vessel
	SuctionM3H  float64         // most air drawn through drained grain
	WaterM3T    float64         // water per immersion, m³ per tonne as cast
	LossWM2K    float64         // through walls, per m² of floor
	Columns     []barley.Column // how uneven its grain lies; nil: level
}

// GerminatorKind is the build of a germination vessel.
type GerminatorKind int

// The builds.
const (
	Box GerminatorKind = iota
	Round
	Combined // kilned in the same vessel, layers unmixed
	Floor    // no fan
	Drum     // one mixed layer
)

// Germinator is one germination vessel.
type Germinator struct {
	Name      string
	Kind      GerminatorKind
	AreaM2    float64
	CapacityT float64
	Air       AirHandler
	MixesTurn float64 // share of the bed's unevenness that a turn removes, 0 to 1
	LossWM2K  float64
	Columns   []barley.Column // how uneven its bed lies; nil: level
}

// FanPlace says what the fan stands behind or before.
type FanPlace int

// The places.
const (
	FanBeforeConditioning FanPlace = iota // fan, then humidifier and coil
	FanAfterConditioning                  // its heat warms and dries the made air
	FanAirOff                             // draws air off above the bed
)

// AirHandler makes the air that goes under a germinating bed.
type AirHandler struct {
	Fan        Fan
	FanPlace   FanPlace
	LeastFresh float64 // share of outside air that the dampers cannot go below
	Humidifier float64 // effectiveness 0 to 1 (0: none)
	CoolingKW  float64 // most that coil or chilled spray takes out; 0 means none
	COP        float64 // heat taken out per electrical work
	HeatingKW  float64 // most that a winter heater gives
}

// Fan is a fan with its curve: pressure falls from ShutOffPa at no flow with
// the square of the flow to 0 at FreeM3S (actual volume at the fan's inlet).
type Fan struct {
	ShutOffPa  float64
	FreeM3S    float64
	Efficiency float64 // of fan and motor together
	LossPa     float64 // of ducts, floor and dampers at FreeM3S/2, rising with the square
}

// Kiln is one kiln.
type Kiln struct {
	Name      string
	AreaM2    float64
	CapacityT float64 // barley as cast
	Fan       Fan
	FanPush   bool // before the bed; otherwise it draws air off

	Burner        Burner
	HeatRecovery  float64 // effectiveness of an exhaust heat exchanger, 0 means none
	MostRecirc    float64
	LeakShare     float64         // of the fan's air that goes past the bed
	LossWK        float64         // of the whole structure, W per K above outside
	DampersOpenKg float64         // natural draught with the fan stopped, kg/(m² s)
	Columns       []barley.Column // how uneven its bed lies; nil: level
	Decks         *Decks          // nil: one deck by itself
}

// Decks are two decks over one fan, or two linked kilns, which are the same to
// their air: what comes off one piece dries the next.
type Decks struct {
	DropH        float64 // from the upper deck to the lower one
	DropMixes    bool    // linked kilns keep the piece where it is
	BetweenShare float64 // air let in between the decks, of that off the lower one
	BetweenC     float64 // to which it is warmed; NaN: as it is outside
}

// Firing says whether flue gas goes through the grain.
type Firing int

// The kinds of firing.
const (
	Indirect Firing = iota
	Direct
)

// Burner heats a kiln's air.
type Burner struct {
	Firing     Firing
	Fuel       string
	MostKW     float64 // heat given to air
	TurnDown   float64 // least over most heat while it burns
	Efficiency float64 // heat to air over lower heating value
	HHVOverLHV float64
	RampKPerH  float64 // fastest rise of air-on; 0 means no limit
}

// Dressing is the deculmer and the malt screens.
type Dressing struct {
	ScreenMM      float64
	BrokenShare   float64 // of malt, lost to screenings
	CulmsPriceT   float64
	ScreenPriceT  float64
	CulmMoistureW float64 // wet basis; 0 takes the malt's
}

// MaltStore is the silo in which malt rests before it is sent out.
type MaltStore struct {
	AirM3HT float64 // air drawn through the malt, m³/h per tonne; 0: it is closed and only breathes
}

// Water is how steep water is made, and what is recorded of it. NaN is not known.
type Water struct {
	HeatKW, CoolKW float64 // most that warms and cools it while a vessel fills; 0 means that no limit is known
	Efficiency     float64 // heat to water over lower heating value of the kiln's fuel
	COP            float64 // heat taken out per electrical work

	PH, HardnessMgL, IronMgL float64 // hardness as calcium carbonate
}

// Weather is the outside air and the mains water month by month.
type Weather struct {
	AirC   [12]float64
	RH     [12]float64
	WaterC [12]float64
	SwingK float64 // half the daily range of air temperature, warmest at 15 h
}

// Prices are what a piece costs, in one currency.
type Prices struct {
	Currency    string
	BarleyT     float64
	MaltT       float64
	WaterM3     float64
	EffluentM3  float64
	EffluentCOD float64 // per kg of COD
	HeatKWh     float64 // per kWh of fuel on HeatOnHHV's basis
	HeatOnHHV   bool
	PowerKWh    float64
	LabourH     float64
	VesselH     float64 // what an hour of the bottleneck is worth
}

// EmissionFactors are kg CO2e per unit bought.
type EmissionFactors struct {
	FuelKWh   float64
	FuelOnHHV bool
	PowerKWh  float64
	BarleyT   float64
	Source    string
}
