package paper

import (
	"math"

	"awn/unit"
)

// quantity is a number with unit and basis in a document. Each dimension has
// its own type of it below.
type quantity[D dimension] struct{ unit.Quantity }

type dimension interface{ dimension() unit.Dimension }

func (quantity[D]) form(least, most string) (func() string, func(string) (any, error), error) {
	var of D
	d, err := of.dimension().Within(least, most)
	if err != nil {
		return nil, nil, err
	}
	return d.Pattern, func(text string) (any, error) {
		q, err := d.Parse(text)
		return quantity[D]{q}, err
	}, nil
}

// In is the number that would be written in the unit; NaN if the quantity is
// not given, or of another kind than the unit.
func (q *quantity[D]) In(symbol string) float64 { return q.Or(symbol, math.NaN()) }

// Or is In with another number for a quantity that is not given.
func (q *quantity[D]) Or(symbol string, missing float64) float64 {
	if q == nil || q.Symbol == "" {
		return missing
	}
	var of D
	d := of.dimension()
	if u, ok := d.Unit(symbol); !ok || u.Kind != q.Kind {
		return math.NaN()
	}
	x, _ := d.In(q.Value, symbol) // the unit is there
	return x
}

// The quantities of documents.
type (
	Temperature           = quantity[temperature]
	TemperatureDifference = quantity[temperatureDifference]
	Moisture              = quantity[moisture]
	MassFraction          = quantity[massFraction]
	Percent               = quantity[percent]
	Mass                  = quantity[mass]
	KernelWeight          = quantity[kernelWeight]
	Length                = quantity[length]
	Altitude              = quantity[altitude]
	Area                  = quantity[area]
	Volume                = quantity[volume]
	Duration              = quantity[duration]
	TestWeight            = quantity[testWeight]
	Density               = quantity[density]
	Airflow               = quantity[airflow]
	VolumeFlow            = quantity[volumeFlow]
	Pressure              = quantity[pressure]
	Power                 = quantity[power]
	Conductance           = quantity[conductance]
	Transmittance         = quantity[transmittance]
	Concentration         = quantity[concentration]
	Dose                  = quantity[dose]
	AminoNitrogen         = quantity[aminoNitrogen]
	Trace                 = quantity[trace]
	SpiritYield           = quantity[spiritYield]
	AreaLoad              = quantity[areaLoad]
	WaterDose             = quantity[waterDose]
	Colour                = quantity[colour]
	DiastaticPower        = quantity[diastaticPower]
	AlphaAmylase          = quantity[alphaAmylase]
	Viscosity             = quantity[viscosity]
	GrainPrice            = quantity[grainPrice]
	PowerPrice            = quantity[powerPrice]
	FuelPrice             = quantity[fuelPrice]
	WaterPrice            = quantity[waterPrice]
	LabourPrice           = quantity[labourPrice]
	PowerEmission         = quantity[powerEmission]
	FuelEmission          = quantity[fuelEmission]
	GoodsEmission         = quantity[goodsEmission]
)

type (
	temperature           struct{}
	temperatureDifference struct{}
	moisture              struct{}
	massFraction          struct{}
	percent               struct{}
	mass                  struct{}
	kernelWeight          struct{}
	length                struct{}
	altitude              struct{}
	area                  struct{}
	volume                struct{}
	duration              struct{}
	testWeight            struct{}
	density               struct{}
	airflow               struct{}
	volumeFlow            struct{}
	pressure              struct{}
	power                 struct{}
	conductance           struct{}
	transmittance         struct{}
	concentration         struct{}
	dose                  struct{}
	aminoNitrogen         struct{}
	trace                 struct{}
	spiritYield           struct{}
	areaLoad              struct{}
	waterDose             struct{}
	colour                struct{}
	diastaticPower        struct{}
	alphaAmylase          struct{}
	viscosity             struct{}
	grainPrice            struct{}
	powerPrice            struct{}
	fuelPrice             struct{}
	waterPrice            struct{}
	labourPrice           struct{}
	powerEmission         struct{}
	fuelEmission          struct{}
	goodsEmission         struct{}
)

func (temperature) dimension() unit.Dimension           { return unit.Temperature }
func (temperatureDifference) dimension() unit.Dimension { return unit.TemperatureDifference }
func (moisture) dimension() unit.Dimension              { return unit.Moisture }
func (massFraction) dimension() unit.Dimension          { return unit.MassFraction }
func (percent) dimension() unit.Dimension               { return unit.Percent }
func (mass) dimension() unit.Dimension                  { return unit.Mass }
func (kernelWeight) dimension() unit.Dimension          { return unit.KernelWeight }
func (length) dimension() unit.Dimension                { return unit.Length }
func (altitude) dimension() unit.Dimension              { return unit.Altitude }
func (area) dimension() unit.Dimension                  { return unit.Area }
func (volume) dimension() unit.Dimension                { return unit.Volume }
func (duration) dimension() unit.Dimension              { return unit.Duration }
func (testWeight) dimension() unit.Dimension            { return unit.TestWeight }
func (density) dimension() unit.Dimension               { return unit.Density }
func (airflow) dimension() unit.Dimension               { return unit.Airflow }
func (volumeFlow) dimension() unit.Dimension            { return unit.VolumeFlow }
func (pressure) dimension() unit.Dimension              { return unit.Pressure }
func (power) dimension() unit.Dimension                 { return unit.Power }
func (conductance) dimension() unit.Dimension           { return unit.Conductance }
func (transmittance) dimension() unit.Dimension         { return unit.Transmittance }
func (concentration) dimension() unit.Dimension         { return unit.Concentration }
func (dose) dimension() unit.Dimension                  { return unit.Dose }
func (aminoNitrogen) dimension() unit.Dimension         { return unit.AminoNitrogen }
func (trace) dimension() unit.Dimension                 { return unit.Trace }
func (spiritYield) dimension() unit.Dimension           { return unit.SpiritYield }
func (areaLoad) dimension() unit.Dimension              { return unit.AreaLoad }
func (waterDose) dimension() unit.Dimension             { return unit.WaterDose }
func (colour) dimension() unit.Dimension                { return unit.Colour }
func (diastaticPower) dimension() unit.Dimension        { return unit.DiastaticPower }
func (alphaAmylase) dimension() unit.Dimension          { return unit.AlphaAmylase }
func (viscosity) dimension() unit.Dimension             { return unit.Viscosity }
func (grainPrice) dimension() unit.Dimension            { return unit.GrainPrice }
func (powerPrice) dimension() unit.Dimension            { return unit.PowerPrice }
func (fuelPrice) dimension() unit.Dimension             { return unit.FuelPrice }
func (waterPrice) dimension() unit.Dimension            { return unit.WaterPrice }
func (labourPrice) dimension() unit.Dimension           { return unit.LabourPrice }
func (powerEmission) dimension() unit.Dimension         { return unit.PowerEmission }
func (fuelEmission) dimension() unit.Dimension          { return unit.FuelEmission }
func (goodsEmission) dimension() unit.Dimension         { return unit.GoodsEmission }
