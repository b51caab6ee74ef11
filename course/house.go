package course

import (
	"math"
	"slices"

	"awn/odds"
	"awn/plant"
)

// houseConstants are how far a house's own instruments and its weather stand
// from what it believes of them. At their defaults they change nothing.
type houseConstants struct {
	AirK          float64 `param:"house.weather.air"`
	RH            float64 `param:"house.weather.humidity"`
	WaterK        float64 `param:"house.weather.water"`
	SteepWaterK   float64 `param:"house.thermometer.steep"`
	GerminateAirK float64 `param:"house.thermometer.germinate"`
	KilnAirK      float64 `param:"house.thermometer.kiln"`
	GerminateFlow float64 `param:"house.flow.germinate"`
	KilnFlow      float64 `param:"house.flow.kiln"`
	Cast          float64 `param:"house.scale.cast"`
}

var houseParameters = []odds.Parameter{
	{Key: "house.weather.air", Unit: "K, the week against the mean of the month", Default: 0, Low: -4, High: 4,
		Distribution: odds.Normal, Source: "common practice, no source", Mark: odds.Practice},
	{Key: "house.weather.humidity", Unit: "1, the week against the mean of the month", Default: 0, Low: -0.1, High: 0.1,
		Distribution: odds.Normal, Source: "common practice, no source", Mark: odds.Practice},
	{Key: "house.weather.water", Unit: "K, the week against the mean of the month", Default: 0, Low: -1.5, High: 1.5,
		Distribution: odds.Normal, Source: "common practice, no source", Mark: odds.Practice},
	{Key: "house.thermometer.steep", Unit: "K, true less read", Default: 0, Low: -0.5, High: 0.5,
		Distribution: odds.Normal, Source: "common practice, no source", Mark: odds.Practice},
	{Key: "house.thermometer.germinate", Unit: "K, true less read", Default: 0, Low: -0.5, High: 0.5,
		Distribution: odds.Normal, Source: "common practice, no source", Mark: odds.Practice},
	{Key: "house.thermometer.kiln", Unit: "K, true less read", Default: 0, Low: -1.5, High: 1.5,
		Distribution: odds.Normal, Source: "common practice, no source", Mark: odds.Practice},
	{Key: "house.flow.germinate", Unit: "1, true over set", Default: 1, Low: 0.85, High: 1.15,
		Distribution: odds.LogNormal, Source: "common practice, no source", Mark: odds.Practice},
	{Key: "house.flow.kiln", Unit: "1, true over set", Default: 1, Low: 0.9, High: 1.1,
		Distribution: odds.LogNormal, Source: "common practice, no source", Mark: odds.Practice},
	{Key: "house.scale.cast", Unit: "1, true over weighed", Default: 1, Low: 0.995, High: 1.005,
		Distribution: odds.LogNormal, Source: "common practice, no source", Mark: odds.Practice},
}

// Between which humidities the outside air is kept, and how cold water gets.
const (
	driestRH      = 0.05
	dampestRH     = 0.99
	coldestWaterC = 0.5
)

// actual is the piece as it truly stands where instruments and weather are off
// by so much: p itself where they are not.
func (h *houseConstants) actual(p *Piece) *Piece {
	if (*h == houseConstants{GerminateFlow: 1, KilnFlow: 1, Cast: 1}) {
		return p
	}
	out := *p
	out.CastKg *= h.Cast
	h.weather(&out.House.Weather)
	s := &out.Programme
	s.Steep, s.Germinate, s.Kiln = slices.Clone(s.Steep), slices.Clone(s.Germinate), slices.Clone(s.Kiln)
	for i := range s.Steep {
		s.Steep[i].WaterC += h.SteepWaterK // NaN, the house's own water, stays
	}
	for i := range s.Germinate {
		s.Germinate[i].AirOnC += h.GerminateAirK
		s.Germinate[i].Flow.Value *= h.GerminateFlow
	}
	for i := range s.Kiln {
		k := &s.Kiln[i]
		if !k.HeaterOff {
			k.AirOnC += h.KilnAirK
		}
		k.Flow.Value *= h.KilnFlow
	}
	return &out
}

func (h *houseConstants) weather(w *plant.Weather) {
	for month := range w.AirC {
		w.AirC[month] += h.AirK
		w.RH[month] = min(max(w.RH[month]+h.RH, driestRH), dampestRH)
		w.WaterC[month] = math.Max(coldestWaterC, w.WaterC[month]+h.WaterK)
	}
}
