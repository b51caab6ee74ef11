package year

import (
	"context"
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"time"

	"awn/internal/exchange"
	"awn/internal/malthouse"
	"awn/ledger"
)

// SensedDays is for how many days before the year ends the sensors of kilns and
// boxes were read: once a minute, so that a kiln has more than fifty thousand
// readings. Those in the silos are read once an hour, all year.
const SensedDays = 35

// lain is a piece in a vessel.
type lain struct{ from, to time.Time }

// Sense makes up what the sensors of a made-up year read, once it is made: air
// onto kilns and boxes as their pieces lay there, and the heart of two silos.
func Sense(ctx context.Context, house *malthouse.House, seed uint64, start time.Time) error {
	own := *house
	end := start.AddDate(0, 0, Days).Add(6 * time.Hour)
	own.Clock = func() time.Time { return end }
	r := rand.New(rand.NewPCG(seed, 5))
	head := malthouse.Actor{ID: "osk", Name: "Osk Varley", Role: malthouse.Floor}
	from := end.AddDate(0, 0, -SensedDays)
	vessels, err := lying(ctx, &own, head, from, end)
	if err != nil {
		return err
	}
	series := map[string][]exchange.Sensed{}
	read := func(code string, from, to time.Time, every time.Duration, air func(time.Time) float64) {
		s := exchange.Series{Code: code, Quantity: "temperature", Unit: "°C"}
		for t := from.Truncate(every); t.Before(to); t = t.Add(every) {
			series[code] = append(series[code], exchange.Sensed{Series: s, AtMS: t.UnixMilli(), Value: math.Round(10*(air(t)+0.15*r.NormFloat64())) / 10})
		}
	}
	for _, kiln := range []string{"KILN1", "KILN2"} {
		read(kiln+"-AIR-ON", from, end, time.Minute, func(t time.Time) float64 { return onKiln(t, vessels[kiln]) })
	}
	for _, box := range []string{"BOX1", "BOX2", "BOX3", "BOX4"} {
		for _, l := range vessels[box] {
			read(box+"-AIR-ON", l.from, l.to, time.Minute, func(t time.Time) float64 {
				return 14 + 0.8*math.Sin(2*math.Pi*t.Sub(l.from).Hours()/6) + t.Sub(l.from).Hours()/100
			})
		}
	}
	for i, silo := range []string{"B1-2M", "B2-2M"} {
		read(silo, start, end, time.Hour, func(t time.Time) float64 {
			return 12 + float64(i) + 5*math.Sin(2*math.Pi*(t.Sub(start).Hours()/24+30)/365)
		})
	}
	for _, code := range slices.Sorted(maps.Keys(series)) {
		if _, err := own.Log(ctx, head, series[code], false); err != nil {
			return err
		}
	}
	_, err = own.Log(ctx, head, nil, true)
	return err
}

// lying is when pieces lay in each vessel, since a day, by the letters of its
// name.
func lying(ctx context.Context, house *malthouse.House, who malthouse.Actor, since, end time.Time) (map[string][]lain, error) {
	all, err := house.Pieces(ctx, who)
	out := map[string][]lain{}
	for _, p := range all {
		if err != nil || time.UnixMilli(p.Cast.Fact.At).Before(since.AddDate(0, 0, -8)) {
			continue
		}
		var view malthouse.PieceView
		if view, err = house.Piece(ctx, who, p.Code); err != nil {
			continue
		}
		in, began := "", time.Time{}
		leave := func(vessel string, at time.Time) {
			if name := strings.ToUpper(strings.ReplaceAll(in, " ", "")); name != "" {
				out[name] = append(out[name], lain{began, at})
			}
			in, began = vessel, at
		}
		for _, t := range view.Told {
			at := time.UnixMilli(t.Fact.At)
			switch b := t.Body.(type) {
			case *ledger.Couching:
				leave(b.Vessel, at)
			case *ledger.Kilning:
				leave(b.Vessel, at)
			case *ledger.Stripping:
				leave("", at)
			}
		}
		leave("", end)
	}
	return out, err
}

// onKiln is the air onto a kiln: warm while a piece lies on it, by the steps of
// the example, and else as outside.
func onKiln(t time.Time, pieces []lain) float64 {
	for _, l := range pieces {
		if t.Before(l.from) || !t.Before(l.to) {
			continue
		}
		switch h := t.Sub(l.from).Hours(); {
		case h < 3:
			return 12 + 16*h
		case h < 14:
			return 60
		case h < 18:
			return 60 + 6*(h-14)/4
		case h < 20:
			return 66 + 18*(h-18)/2
		case h < 24:
			return 84
		default:
			return max(12, 84-36*(h-24))
		}
	}
	return 9 + 4*math.Sin(2*math.Pi*float64(t.Hour()*60+t.Minute()-540)/1440)
}
