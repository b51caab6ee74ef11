package paper

import (
	"math"
	"slices"

	"awn/air"
	"awn/barley"
	"awn/odds"
	"awn/plant"
	"awn/silo"
	"awn/unit"
)

// Silo is a silo of barley with what was read and counted of it.
type Silo struct {
	Name        string       `key:"name" doc:"Name of the silo."`
	Filled      Date         `key:"filled" doc:"Day on which it was filled."`
	Today       Date         `key:"today" doc:"Day for which the account is made."`
	Steep       *Date        `key:"steep" doc:"Day on which it is to be steeped."`
	KeepFor     *Duration    `key:"keep_for" doc:"For how long from today it must keep."`
	Moisture    *Moisture    `key:"moisture" min:"5 % wb" max:"30 % wb" doc:"Moisture at filling."`
	Temperature *Temperature `key:"temperature" min:"-20 °C" max:"60 °C" doc:"Temperature at filling."`
	Sprouted    bool         `key:"sprouted?" doc:"Germination before harvest was shown."`

	Energy       []Counted       `key:"germination_energy?" max:"200" doc:"Counts of germination in 4 mL at 72 h."`
	Capacity     []Counted       `key:"capacity?" max:"200" doc:"Counts of living kernels."`
	Readings     []SensorReading `key:"readings?" doc:"Readings of its sensors."`
	ReadingsFile string          `key:"readings_file?" doc:"CSV file of readings beside this document, with the columns time, height (per cent), temp_c or temp_f, and moisture_wb (per cent). Cells may be empty."`

	Build       *Build       `key:"build" doc:"The silo itself. With it and the weather the time to come is worked out."`
	Aeration    *Aeration    `key:"aeration" doc:"When the fan may run. By common practice, if it is not given."`
	Outside     *Temperature `key:"outside" min:"-50 °C" max:"50 °C" doc:"Mean temperature outside of late."`
	Normals     *Normals     `key:"normals" doc:"Weather month by month, of which an even year is made."`
	WeatherFile string       `key:"weather_file?" doc:"CSV file of hourly weather beside this document, with the columns time, temp_c or temp_f, and rh (per cent)."`
	Altitude    *Altitude    `key:"altitude" min:"-400 m" max:"4000 m" doc:"Height above the sea. At sea level, if it is not given."`

	Params map[string]float64 `key:"params?" match:"[a-z0-9_.-]+" doc:"Figures of the model that are known better for this silo. By the key of the parameter table."`
}

// Counted is a count on a day.
type Counted struct {
	On Date `key:"on" doc:"Day of the sample."`
	Germinated
}

// SensorReading is one sensor at one time.
type SensorReading struct {
	On          Date         `key:"on" doc:"Day."`
	Height      *Percent     `key:"height" doc:"Height of the sensor, from the floor (0 %) to the top of the grain."`
	Temperature *Temperature `key:"temperature" min:"-50 °C" max:"90 °C" doc:"Temperature."`
	Moisture    *Moisture    `key:"moisture" min:"5 % wb" max:"40 % wb" doc:"Moisture."`

	_ struct{} `rule:"some of temperature moisture"`
}

// Build is the silo itself.
type Build struct {
	Diameter Length     `key:"diameter" min:"0.5 m" max:"60 m" doc:"Diameter."`
	Depth    Length     `key:"depth" min:"0.3 m" max:"50 m" doc:"Depth of the grain."`
	Bulk     TestWeight `key:"test_weight" min:"40 kg/hL" max:"80 kg/hL" doc:"Test weight of the grain as it lies."`
	Fan      *Fan       `key:"fan" doc:"The fan that blows through it from below."`
	Layers   *int       `key:"layers" min:"1" max:"100" doc:"Layers to work it out in. Twenty, if it is not given."`
}

// Aeration is when the fan may run.
type Aeration struct {
	ColderBy     TemperatureDifference `key:"colder_by" min:"0 K" max:"20 K" doc:"Air-on must be colder than the grain's mean by so much."`
	MostHumidity Percent               `key:"most_humidity" min:"20 %" doc:"Most humidity of the air-on."`
	Target       Temperature           `key:"target" min:"-10 °C" max:"30 °C" doc:"The grain's mean is not cooled below this."`
	Hold         *Temperature          `key:"hold_while_dormant" min:"-10 °C" max:"30 °C" doc:"Nor below this while the lot is dormant. 15 °C, if it is not given."`
}

// Normals are the weather month by month.
type Normals struct {
	Air      [12]Temperature       `key:"air" min:"-40 °C" max:"50 °C" doc:"Mean air temperature, January first."`
	Humidity [12]Percent           `key:"humidity" min:"5 %" doc:"Mean relative humidity."`
	Swing    TemperatureDifference `key:"daily_swing" min:"0 K" max:"20 K" doc:"Half the daily range of the air, warmest at three in the afternoon."`
}

// Kind is the word behind the first key.
func (Silo) Kind() string { return "silo/1" }

// Check finds days out of order, and what is said twice or not known.
func (s Silo) Check() (faults []Fault) {
	add := func(code, path, got string) { faults = append(faults, Fault{Code: code, Path: path, Got: got}) }
	if s.Today.daysAfter(s.Filled) < 0 {
		add("silo.days.order", "today", (&s.Today).text())
	}
	if s.Steep != nil && s.Steep.daysAfter(s.Today) < 0 {
		add("silo.days.order", "steep", s.Steep.text())
	}
	if s.ReadingsFile != "" && s.Readings != nil {
		add("silo.readings.twice", "readings", "")
	}
	if s.WeatherFile != "" && s.Normals != nil {
		add("silo.weather.twice", "normals", "")
	}
	known := make([]string, len(silo.Parameters))
	for i, p := range silo.Parameters {
		known[i] = p.Key
	}
	for key := range s.Params {
		if !slices.Contains(known, key) {
			faults = append(faults, Fault{Code: "silo.params.unknown", Path: "params." + key, Got: key, Nearest: unit.Nearest(key, known)})
		}
	}
	return faults
}

// Store is the store that the document describes, without what lies in files
// of their own.
func (s Silo) Store() (silo.Store, error) {
	out := silo.Store{
		Name: s.Name, IntakeWB: s.Moisture.In("% wb") / 100, IntakeC: s.Temperature.In("°C"), Sprouted: s.Sprouted,
		Energy: s.counts(s.Energy), Capacity: s.counts(s.Capacity), Today: s.Today.daysAfter(s.Filled),
		SteepDay: math.NaN(), KeepDays: s.KeepFor.In("d"), OutsideC: s.Outside.In("°C"),
	}
	if s.Steep != nil {
		out.SteepDay = s.Steep.daysAfter(s.Filled)
	}
	for _, r := range s.Readings {
		out.Readings = append(out.Readings, silo.Reading{
			Day: r.On.daysAfter(s.Filled), Height: r.Height.In("%") / 100, TempC: r.Temperature.In("°C"), Moisture: r.Moisture.In("% wb") / 100,
		})
	}
	if s.Normals != nil {
		year := silo.SyntheticYear(s.Normals.weather(), s.Today.YearDay()-1)
		out.Weather = year[:s.hoursToCome(len(year))]
	}
	if err := odds.Fill(&out.Constants, silo.Parameters, s.Params); err != nil {
		return out, err
	}
	setup, err := s.setup(&out)
	if s.Build != nil {
		out.Geometry = setup
	}
	return out, err
}

// hoursToCome is up to the day of steeping or for as long as it must keep; all
// that there are if neither is said.
func (s Silo) hoursToCome(most int) int {
	days := math.NaN()
	switch {
	case s.Steep != nil:
		days = s.Steep.daysAfter(s.Today)
	case s.KeepFor != nil:
		days = s.KeepFor.In("d")
	}
	if math.IsNaN(days) {
		return most
	}
	return min(most, int(math.Round(days*hoursPerDay)))
}

func (s Silo) counts(list []Counted) []silo.Look {
	out := make([]silo.Look, len(list))
	for i, c := range list {
		out[i] = silo.Look{Day: c.On.daysAfter(s.Filled), Count: odds.Proportion{Hits: c.Germinated.Germinated, Of: c.Of}}
	}
	return out
}

func (n Normals) weather() plant.Weather {
	out := plant.Weather{SwingK: n.Swing.In("K")}
	for i := range n.Air {
		out.AirC[i], out.RH[i] = n.Air[i].In("°C"), n.Humidity[i].In("%")/100
	}
	return out
}

// setup is the silo itself; nil if it is not described.
func (s Silo) setup(store *silo.Store) (*silo.Setup, error) {
	b := s.Build
	if b == nil {
		return nil, nil
	}
	out := &silo.Setup{
		RadiusM: b.Diameter.In("m") / 2, DepthM: b.Depth.In("m"), Layers: silo.UsualLayers, BulkKgM3: b.Bulk.In("kg/hL") * 10,
		PressurePa: air.StandardPressure(s.Altitude.Or("m", 0)),
	}
	if b.Layers != nil {
		out.Layers = *b.Layers
	}
	out.Constants = store.Constants
	var c barley.Constants
	if err := odds.Fill(&c, barley.Parameters, nil); err != nil {
		return nil, err
	}
	out.Isotherm = barley.BarleyIsotherm(c)
	if b.Fan != nil {
		out.Fan = b.Fan.fan()
		out.Aeration = s.aeration(store)
	}
	return out, nil
}

// aeration is the document's, or that of common practice.
func (s Silo) aeration(store *silo.Store) silo.Aeration {
	out := silo.UsualAeration(store.Dormant())
	if a := s.Aeration; a != nil {
		out.ColderByK, out.MostRH, out.TargetC = a.ColderBy.In("K"), a.MostHumidity.In("%")/100, a.Target.In("°C")
		out.HoldC = a.Hold.Or("°C", silo.ReleaseC)
	}
	return out
}
