package paper

import (
	"slices"
	"strconv"
	"time"
	_ "time/tzdata" // the zones, on machines that have none

	"awn/unit"
)

// Plant is one malthouse: vessels, weather, prices.
type Plant struct {
	Name     string   `key:"name" doc:"Name of the malthouse."`
	Place    string   `key:"place?" doc:"Where it stands."`
	Zone     string   `key:"zone" doc:"Time zone by its IANA name, such as Europe/Dublin."`
	Altitude Altitude `key:"altitude" min:"-400 m" max:"4000 m" doc:"Height above the sea. It sets the pressure of the air."`

	Cleaning    *Cleaning    `key:"cleaning" doc:"What happens to barley between pit and steep."`
	Steeps      []Steep      `key:"steeps" min:"1" max:"50" doc:"Steeping vessels."`
	Germinators []Germinator `key:"germinators" min:"1" max:"50" doc:"Germination vessels."`
	Kilns       []Kiln       `key:"kilns" min:"1" max:"20" doc:"Kilns."`
	Dressing    *Dressing    `key:"dressing" doc:"Deculmer and malt screens."`

	SteepWater *SteepWater `key:"steep_water" doc:"How steep water is made, and what is known of it."`
	MaltStore  *MaltStore  `key:"malt_store" doc:"The silo in which malt rests. Closed, if nothing is said."`

	Weather   Weather            `key:"weather" doc:"Outside air and mains water, month by month."`
	Prices    *Prices            `key:"prices" doc:"What things cost, all in one currency."`
	Emissions *Emissions         `key:"emissions" doc:"Carbon dioxide equivalent of what is bought."`
	Params    map[string]float64 `key:"params?" match:"[a-z0-9_.-]+" doc:"Figures of the model that are known better for this house. By the key of the parameter table."`
}

// Cleaning is what happens between the pit and the steep.
type Cleaning struct {
	Screen    *Length     `key:"screen" min:"1 mm" max:"4 mm" doc:"Slot under which barley is screened out."`
	Grade     *Length     `key:"grade" min:"1 mm" max:"4 mm" doc:"Slot under which corns that the screen keeps go apart as a second grade. None, if it is not given."`
	Dust      *Percent    `key:"dust" max:"10 %" doc:"Share of barley as received that the air draws off."`
	Foreign   *Percent    `key:"foreign" max:"20 %" doc:"Share of barley as received that is straw, stones and other seeds, and is taken out."`
	FeedPrice *GrainPrice `key:"feed_price" doc:"What screenings fetch."`
	Second    *GrainPrice `key:"second_price" doc:"What the second grade fetches."`
}

// Check finds a second grade that the screen has already taken out.
func (c Cleaning) Check() []Fault {
	if c.Grade != nil && c.Screen != nil && c.Grade.In("mm") <= c.Screen.In("mm") {
		return []Fault{{Code: "plant.cleaning.grade", Path: "grade"}}
	}
	return nil
}

// Steep is one steeping vessel.
type Steep struct {
	Name     string         `key:"name" doc:"Name of the vessel."`
	Capacity Mass           `key:"capacity" min:"10 kg" max:"1000 t" doc:"Barley as cast that it takes."`
	Volume   Volume         `key:"volume" min:"20 L" max:"5000 m3" doc:"Volume up to the overflow."`
	Depth    Length         `key:"depth" min:"0.1 m" max:"10 m" doc:"Mean depth of the drained grain."`
	Bottom   string         `key:"bottom" one:"conical|flat" doc:"Build of the bottom."`
	Fill     Duration       `key:"fill" max:"8 h" doc:"Time to fill with water."`
	Drain    Duration       `key:"drain" max:"8 h" doc:"Time to drain."`
	Transfer Duration       `key:"transfer" max:"12 h" doc:"Time to cast the grain out."`
	Aeration *VolumeFlow    `key:"aeration" max:"100000 m3/h" doc:"Most compressed air for the whole vessel."`
	Suction  *VolumeFlow    `key:"suction" max:"500000 m3/h" doc:"Most air drawn through the drained grain."`
	Uneven   *Uneven        `key:"uneven" doc:"How unevenly the grain lies. Level, if it is not given."`
	Water    WaterDose      `key:"water" min:"0.5 m3/t" max:"5 m3/t" doc:"Water of one immersion per barley as cast."`
	WallLoss *Transmittance `key:"wall_loss" max:"50 W/m2/K" doc:"Heat lost per floor area and degree."`
}

// Germinator is one germination vessel.
type Germinator struct {
	Name     string         `key:"name" doc:"Name of the vessel."`
	Build    string         `key:"build" one:"box|round|combined|floor|drum" doc:"Build. Combined is kilned in the same vessel, a floor has no fan, a drum is one mixed layer."`
	Area     Area           `key:"area" min:"0.5 m2" max:"5000 m2" doc:"Floor area."`
	Capacity Mass           `key:"capacity" min:"10 kg" max:"1000 t" doc:"Barley as cast that it takes."`
	Air      *AirHandler    `key:"air" doc:"What makes the air under the bed."`
	TurnMix  *Percent       `key:"turn_mix" doc:"Share of the bed's unevenness that one turn removes."`
	Uneven   *Uneven        `key:"uneven" doc:"How unevenly the bed lies. Level, if it is not given."`
	WallLoss *Transmittance `key:"wall_loss" max:"50 W/m2/K" doc:"Heat lost per floor area and degree."`
}

// AirHandler makes the air under a germinating bed.
type AirHandler struct {
	Fan        Fan      `key:"fan" doc:"The fan."`
	FanPlace   string   `key:"fan_place" one:"before conditioning|after conditioning|air-off" doc:"Where the fan stands. Behind the humidifier its heat warms and dries the made air."`
	LeastFresh *Percent `key:"least_fresh" doc:"Outside air that the dampers cannot go below."`
	Humidifier *Percent `key:"humidifier" doc:"Effectiveness of the humidifier."`
	Cooling    *Power   `key:"cooling" max:"20 MW" doc:"Most heat that coil or chilled spray takes out."`
	COP        *float64 `key:"cop" min:"1" max:"15" doc:"Heat taken out per electrical work."`
	Heating    *Power   `key:"heating" max:"20 MW" doc:"Most that a winter heater gives."`
}

// Fan is a fan whose pressure falls with the square of its flow.
type Fan struct {
	ShutOff    Pressure   `key:"shut_off" min:"10 Pa" max:"10 kPa" doc:"Pressure at no flow."`
	Free       VolumeFlow `key:"free" min:"10 m3/h" max:"2000000 m3/h" doc:"Flow at no pressure, as it is at the fan's inlet."`
	Efficiency Percent    `key:"efficiency" min:"5 %" max:"95 %" doc:"Of fan and motor together."`
	DuctLoss   *Pressure  `key:"duct_loss" min:"0 Pa" max:"5 kPa" doc:"Loss of ducts, floor and dampers at half the free flow."`
}

// Kiln is one kiln.
type Kiln struct {
	Name          string       `key:"name" doc:"Name of the kiln."`
	Area          Area         `key:"area" min:"0.5 m2" max:"5000 m2" doc:"Floor area."`
	Capacity      Mass         `key:"capacity" min:"10 kg" max:"1000 t" doc:"Barley as cast that it takes."`
	Fan           Fan          `key:"fan" doc:"The fan."`
	FanPlace      string       `key:"fan_place" one:"push|pull" doc:"Push is before the bed, pull draws air off above it."`
	Burner        Burner       `key:"burner" doc:"What heats the air."`
	HeatRecovery  *Percent     `key:"heat_recovery" max:"95 %" doc:"Effectiveness of a heat exchanger in the exhaust."`
	Recirculation *Percent     `key:"most_recirculation" max:"98 %" doc:"Most return air that the dampers allow."`
	Leakage       *Percent     `key:"leakage" max:"50 %" doc:"Share of the fan's air that goes past the bed."`
	Loss          *Conductance `key:"loss" doc:"Heat lost by the whole structure per degree above outside."`
	Draught       *Airflow     `key:"draught" max:"0.1 kg/m2/s" doc:"Natural draught through the bed with the fan stopped, in kg/m2/s."`
	Uneven        *Uneven      `key:"uneven" doc:"How unevenly the bed lies. Level, if it is not given."`
	Decks         *Decks       `key:"decks" doc:"Two decks over one fan, or two linked kilns. One deck, if it is not given."`
}

// Decks are two decks over one fan, or two linked kilns.
type Decks struct {
	Build   string       `key:"build" one:"two decks|linked" doc:"Over two decks the piece is dropped half way; between linked kilns the air changes over and the piece stays."`
	Drop    *Duration    `key:"drop" max:"6 h" doc:"Time to drop the piece, or to change the air over."`
	Mixes   *bool        `key:"mixes" doc:"Whether dropping mixes the layers. It does on two decks and does not in linked kilns, if nothing is said."`
	Between *Percent     `key:"between" max:"100 %" doc:"Air let in between the decks, as a share of that off the lower one."`
	Warmed  *Temperature `key:"between_air" min:"-20 °C" max:"110 °C" doc:"To what that air is warmed. As it is outside, if it is not given."`
}

// Check finds a linked kiln that mixes what it does not move.
func (d Decks) Check() []Fault {
	if d.Build == "linked" && d.Mixes != nil && *d.Mixes {
		return []Fault{{Code: "plant.decks.linked-mixes", Path: "mixes"}}
	}
	return nil
}

// Burner heats the air of a kiln.
type Burner struct {
	Firing     string                 `key:"firing" one:"direct|indirect" doc:"Direct firing sends its flue gas through the grain."`
	Fuel       string                 `key:"fuel" doc:"What it burns."`
	Most       Power                  `key:"most" min:"1 kW" max:"100 MW" doc:"Most heat given to air."`
	TurnDown   *Percent               `key:"turn_down" doc:"Least heat while it burns, as a share of the most."`
	Efficiency Percent                `key:"efficiency" min:"20 %" doc:"Heat given to air per lower heating value burnt."`
	HHVOverLHV *float64               `key:"hhv_over_lhv" min:"1" max:"1.3" doc:"Higher over lower heating value of the fuel."`
	Ramp       *TemperatureDifference `key:"ramp_per_hour" min:"1 K" max:"100 K" doc:"Fastest rise of the air-on in an hour."`
}

// Dressing is the deculmer and the malt screens.
type Dressing struct {
	Screen         *Length     `key:"screen" min:"1 mm" max:"4 mm" doc:"Slot under which malt is screened out."`
	Broken         *Percent    `key:"broken" max:"20 %" doc:"Share of the malt that breaks and is lost to screenings."`
	CulmsPrice     *GrainPrice `key:"culms_price" doc:"What culms fetch."`
	ScreeningPrice *GrainPrice `key:"screenings_price" doc:"What malt screenings fetch."`
	CulmMoisture   *Moisture   `key:"culm_moisture" max:"20 % wb" doc:"Moisture of the culms. That of the malt, if it is not given."`
}

// SteepWater is how steep water is warmed and cooled, and what is known of it.
type SteepWater struct {
	Heating    *Power         `key:"heating" max:"50 MW" doc:"Most that warms the water while a vessel fills. No limit, if it is not given: it is made before."`
	Efficiency *Percent       `key:"efficiency" min:"20 %" doc:"Heat given to the water per lower heating value of the kiln's fuel."`
	Cooling    *Power         `key:"cooling" max:"50 MW" doc:"Most that is taken out of the water while a vessel fills. No limit, if it is not given."`
	COP        *float64       `key:"cop" min:"1" max:"15" doc:"Heat taken out per electrical work."`
	PH         *float64       `key:"ph" min:"2" max:"12" doc:"Acidity, recorded."`
	Hardness   *Concentration `key:"hardness" max:"2 g/L" doc:"Hardness as calcium carbonate, recorded."`
	Iron       *Concentration `key:"iron" max:"100 mg/L" doc:"Iron, recorded."`
}

// MaltStore is the silo in which malt rests before it is sent out.
type MaltStore struct {
	Air *Airflow `key:"air" max:"100 m3/h/t" doc:"Outside air drawn through the malt, in m3/h/t. None, if it is not given: the silo is closed and breathes a little."`
}

// Check finds air counted in a way that a silo does not have.
func (m MaltStore) Check() []Fault { return checkPerTonne(m.Air, "air") }

// Weather is the outside air and the mains water month by month.
type Weather struct {
	Air      [12]Temperature       `key:"air" min:"-40 °C" max:"50 °C" doc:"Mean air temperature, January first."`
	Humidity [12]Percent           `key:"humidity" min:"5 %" doc:"Mean relative humidity."`
	Water    [12]Temperature       `key:"water" min:"0 °C" max:"40 °C" doc:"Mains water temperature."`
	Swing    TemperatureDifference `key:"daily_swing" min:"0 K" max:"20 K" doc:"Half the daily range of the air, warmest at three in the afternoon."`
}

// Prices are what things cost.
type Prices struct {
	Barley      *GrainPrice  `key:"barley" doc:"Barley as received."`
	Malt        *GrainPrice  `key:"malt" doc:"Malt as sold."`
	Water       *WaterPrice  `key:"water" doc:"Fresh water."`
	Effluent    *WaterPrice  `key:"effluent" doc:"Effluent by volume."`
	EffluentCOD *GrainPrice  `key:"effluent_cod" doc:"Effluent by its chemical oxygen demand."`
	Fuel        *FuelPrice   `key:"fuel" doc:"Fuel. Per lower (LHV) or higher (HHV) heating value, and it must say which."`
	Power       *PowerPrice  `key:"power" doc:"Electric power."`
	Labour      *LabourPrice `key:"labour" doc:"An hour of a person."`
	Vessel      *LabourPrice `key:"vessel" doc:"What an hour of the vessel that limits the house is worth."`
}

// Emissions are emission factors of what is bought.
type Emissions struct {
	Fuel   *FuelEmission  `key:"fuel" doc:"Fuel burnt. Per lower (LHV) or higher (HHV) heating value, and it must say which."`
	Power  *PowerEmission `key:"power" doc:"Electric power."`
	Barley *GoodsEmission `key:"barley" doc:"Barley as received."`
	Source string         `key:"source" doc:"Where the factors come from."`
}

// Kind is the word behind the first key.
func (Plant) Kind() string { return "plant/1" }

// Check finds what does not agree within a plant.
func (p Plant) Check() (faults []Fault) {
	if _, err := time.LoadLocation(p.Zone); err != nil || p.Zone == "Local" {
		faults = append(faults, Fault{Code: "plant.zone.unknown", Path: "zone", Got: p.Zone})
	}
	faults = append(faults, checkNames("steeps", p.Steeps, func(s Steep) string { return s.Name })...)
	faults = append(faults, checkNames("germinators", p.Germinators, func(g Germinator) string { return g.Name })...)
	faults = append(faults, checkNames("kilns", p.Kilns, func(k Kiln) string { return k.Name })...)
	known := parameterKeys()
	for key := range p.Params {
		if !slices.Contains(known, key) {
			faults = append(faults, Fault{Code: "plant.params.unknown", Path: "params." + key, Got: key, Nearest: unit.Nearest(key, known)})
		}
	}
	return append(faults, p.checkCurrency()...)
}

// checkNames finds two vessels of one name.
func checkNames[V any](path string, vessels []V, name func(V) string) (faults []Fault) {
	seen := map[string]bool{}
	for i, v := range vessels {
		if seen[name(v)] {
			faults = append(faults, Fault{Code: "plant.vessel.same-name", Path: path + "[" + strconv.Itoa(i) + "].name", Got: name(v)})
		}
		seen[name(v)] = true
	}
	return faults
}

// Check finds a vessel without the air it needs.
func (g Germinator) Check() []Fault {
	if g.Air == nil && g.Build != "floor" {
		return []Fault{{Code: "plant.air.missing", Got: g.Build}}
	}
	return nil
}
